/** The people, the book and the song of the demo. All names are invented. */
export const DEMO_SCENARIO = {
  bookTitle: "Alder Hall barn dance",
  teacher: { name: "Odell Varga", email: "odell.varga@example.com" },
  student: { name: "Tamsin Reeve", email: "tamsin.reeve@example.com" },
  songTitle: "Seven Sacks of Barley",
} as const;
