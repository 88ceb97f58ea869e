import type { FileProblem, FileRead, FileRow } from "@boothward/shared-types";

/** A page shows so many rows and problems; of the rest it says how many there are. */
const mostShown = 200;

/** What was read from a file, in short, for the page that asked. */
export function fileReadOf(
  rows: readonly FileRow[],
  problems: readonly FileProblem[],
  isKept: boolean,
): FileRead {
  const count = (does: FileRow["does"]) => rows.filter((row) => row.does === does).length;
  return {
    counts: {
      ...{ new: count("new"), change: count("change"), same: count("same") },
      skipped: count("skipped"),
    },
    rows: rows.filter(({ does }) => does !== "same").slice(0, mostShown),
    problems: problems.slice(0, mostShown),
    problemCount: problems.length,
    isKept,
  };
}
