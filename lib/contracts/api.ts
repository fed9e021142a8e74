/**
 * The addresses of the HTTP interface, each with who may call it. All answer JSON unless said otherwise; errors
 * answer {@link ErrorBody} (lib/contracts/errors.ts) with the status from its table.
 *
 *   /api/auth/*                               better-auth's own routes
 *   GET    /api/books                         BookCard[]                       signed in
 *   POST   /api/books                         NewBook -> BookCard              signed in
 *   GET    /api/books/:bookId                 BookPage                         members
 *   POST   /api/books/:bookId/invites         NewInvite -> MadeInvite          its maker
 *   DELETE /api/books/:bookId/invites/:id     204                              its maker
 *   GET    /api/invites/:token                InviteOffer                      signed in
 *   POST   /api/invites/:token                { bookId }                       signed in
 *   POST   /api/books/:bookId/songs           bytes -> SongRow                 teachers, students
 *   GET    /api/books/:bookId/hearing         { [songId]: HearingStatus }      members
 *   POST   /api/books/:bookId/labels          LabelsOrder -> LabelsFile        its maker
 *   GET    /api/songs/:songId                 SongPage                         members
 *   PATCH  /api/songs/:songId                 { title } -> SongRow             teachers, students
 *   DELETE /api/songs/:songId                 204                              maker of the book, who added it
 *   GET    /api/songs/:songId/record          bytes, ranged                    members (lib/server/http/recordRoute.ts)
 *   GET    /api/songs/:songId/peaks           bytes (lib/contracts/peaks.ts)   members; 404 until made
 *   GET    /api/songs/:songId/ear             bytes (lib/contracts/earCopy.ts), ranged   members; 404 until made
 *   POST   /api/songs/:songId/ear             EarCopyStatus; has it made       members
 *   GET    /api/songs/:songId/notes           SongNotes                        members
 *   POST   /api/songs/:songId/hearing         HearingStatus; hears it again    teachers, students
 *   DELETE /api/songs/:songId/hearing         HearingStatus; cancels the run   teachers, students
 *   GET    /api/songs/:songId/takes           Take[]: one's own, and those shared     members
 *   PUT    /api/songs/:songId/takes/:takeId   bytes -> Take                    members
 *   DELETE /api/songs/:songId/takes/:takeId   204                              its owner
 *   GET    /api/songs/:songId/takes/:takeId/sound    WAV, ranged               its owner; members where it is shared
 *   GET    /api/songs/:songId/takes/:takeId/peaks    bytes (lib/contracts/peaks.ts), ranged   the same
 *   PUT    /api/songs/:songId/takes/:takeId/sharing  Take; shares it with the book     its owner
 *   DELETE /api/songs/:songId/takes/:takeId/sharing  Take; keeps it to oneself again   its owner
 *   PUT    /api/songs/:songId/takes/:takeId/judged   TakeJudged -> Take        its owner
 *   POST   /api/songs/:songId/labels          LabelsOrder -> LabelsFile        maker of the book, who added it
 *   GET    /api/copedents                     CopedentShelf                    signed in
 *   POST   /api/copedents                     NewCopedent -> CopedentRow       signed in
 *   PUT    /api/copedents/usual               UsualCopedent -> UsualCopedent   signed in
 *   GET    /api/copedents/:copedentId         CopedentPage                     its owner, members of books it is shared in
 *   PATCH  /api/copedents/:copedentId         CopedentEdit -> CopedentRow      its owner
 *   DELETE /api/copedents/:copedentId         204                              its owner
 *   PUT    /api/copedents/:copedentId/books/:bookId   204; shares it          its owner, writing in the book
 *   DELETE /api/copedents/:copedentId/books/:bookId   204; hides it again     its owner, maker of the book
 *   GET    /api/ear                           EarListing                       signed in
 *   GET    /api/ear/:sha256                   bytes                            signed in
 *   GET    /api/limits                        UploadLimits                     signed in
 *   GET    /api/health                        { ok: true }                     anyone
 */
export const api = {
  books: () => "/api/books",
  book: (bookId: string) => `/api/books/${bookId}`,
  invites: (bookId: string) => `/api/books/${bookId}/invites`,
  invite: (bookId: string, inviteId: string) => `/api/books/${bookId}/invites/${inviteId}`,
  offer: (token: string) => `/api/invites/${token}`,
  songs: (bookId: string) => `/api/books/${bookId}/songs`,
  bookHearing: (bookId: string) => `/api/books/${bookId}/hearing`,
  bookLabels: (bookId: string) => `/api/books/${bookId}/labels`,
  song: (songId: string) => `/api/songs/${songId}`,
  record: (songId: string) => `/api/songs/${songId}/record`,
  peaks: (songId: string) => `/api/songs/${songId}/peaks`,
  earCopy: (songId: string) => `/api/songs/${songId}/ear`,
  notes: (songId: string) => `/api/songs/${songId}/notes`,
  hearing: (songId: string) => `/api/songs/${songId}/hearing`,
  takes: (songId: string) => `/api/songs/${songId}/takes`,
  take: (songId: string, takeId: string) => `/api/songs/${songId}/takes/${takeId}`,
  takeSound: (songId: string, takeId: string) => `/api/songs/${songId}/takes/${takeId}/sound`,
  takePeaks: (songId: string, takeId: string) => `/api/songs/${songId}/takes/${takeId}/peaks`,
  takeSharing: (songId: string, takeId: string) => `/api/songs/${songId}/takes/${takeId}/sharing`,
  takeJudged: (songId: string, takeId: string) => `/api/songs/${songId}/takes/${takeId}/judged`,
  songLabels: (songId: string) => `/api/songs/${songId}/labels`,
  copedents: () => "/api/copedents",
  usualCopedent: () => "/api/copedents/usual",
  copedent: (copedentId: string) => `/api/copedents/${copedentId}`,
  copedentInBook: (copedentId: string, bookId: string) => `/api/copedents/${copedentId}/books/${bookId}`,
  ear: () => "/api/ear",
  earWeights: (sha256: string) => `/api/ear/${sha256}`,
  limits: () => "/api/limits",
} as const;

/** Pages. */
export const pages = {
  home: () => "/",
  signIn: (next?: string) => (next ? `/sign-in?next=${encodeURIComponent(next)}` : "/sign-in"),
  signUp: (next?: string) => (next ? `/sign-up?next=${encodeURIComponent(next)}` : "/sign-up"),
  books: () => "/books",
  book: (bookId: string) => `/books/${bookId}`,
  song: (songId: string) => `/songs/${songId}`,
  invite: (token: string) => `/invite/${token}`,
  copedents: () => "/copedents",
  copedent: (copedentId: string) => `/copedents/${copedentId}`,
  /** What is kept in the browser; stands in for every page while the server is not reached. */
  kept: () => "/kept",
} as const;
