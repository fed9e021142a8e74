import { UPLOAD_HEADERS } from "@/lib/contracts/uploads";
import { encodedHeader } from "@/lib/server/http/encodedHeader";
import { route } from "@/lib/server/http/route";
import { addUploadedSong } from "@/lib/server/services/addSong";

/** The body is the file's bytes as they are, taken in as they come. */
export const POST = route(async ({ house, actor, request, params }) => {
  const announced = request.headers.get("content-length");
  const row = await addUploadedSong(house, actor, params.bookId!, {
    body: request.body as AsyncIterable<Uint8Array> | null,
    byteCount: announced === null ? null : Number(announced),
    fileName: encodedHeader(request, UPLOAD_HEADERS.fileName) ?? "",
    title: encodedHeader(request, UPLOAD_HEADERS.title),
    declaredType: request.headers.get("content-type"),
    signal: request.signal,
  });
  return Response.json(row, { status: 201, headers: { "cache-control": "no-store" } });
});
