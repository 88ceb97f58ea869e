/** The English texts of files in and out. */
export const fileIn = {
  choose: "File",
  reading: "Reading…",
  unreadable: "This file cannot be read as text.",
  counts: (n: { new: number; change: number; same: number; skipped: number }) =>
    [
      `${n.new} new`,
      ...(n.change === 0 ? [] : [`${n.change} changed`]),
      ...(n.same === 0 ? [] : [`${n.same} there already`]),
      ...(n.skipped === 0 ? [] : [`${n.skipped} called off or taken back, left out`]),
    ].join(", "),
  problems: (n: number) =>
    n === 1
      ? "One line cannot be taken. Nothing was kept; put it right in the file and choose it again."
      : `${n} lines cannot be taken. Nothing was kept; put them right in the file and choose it again.`,
  problem: (line: number, column: string | null, sentence: string) =>
    `Line ${line}${column === null ? "" : `, ${column}`}: ${sentence}`,
  andMore: (n: number) => `And ${n} more.`,
  nothing: "There is nothing new in this file.",
  keep: (n: number) => (n === 1 ? "Keep this one" : `Keep all ${n}`),
  kept: (n: number) => (n === 1 ? "One line was kept." : `${n} lines were kept.`),
  rows: "What it would do",
  columns: ["Line", "What", "Does"],
  does: { new: "new", change: "changed", same: "there already", skipped: "left out" },
};

export const planFiles = {
  title: "The run sheet as a file",
  csv: "Download as CSV",
  ics: "Download as a calendar",
  upload: "Bookings from a file",
  uploadHint: "A table (CSV) with the columns of the download, or a calendar (.ics).",
  zone: "Time zone of times that name none",
  booth: "Booth of events that name none",
  noBooth: "None: refuse them",
};
