import type { PrintSize } from "@boothward/shared-types";
import { worstKeywords } from "../booth/printerReasons.ts";
import { type Found, notPossible, question, seen, toDo } from "./found.ts";
import { faultOf } from "./machineChecks.ts";
import type { ChecksInput } from "./checksInput.ts";

/** The loaded roll is enough by itself when so many evenings in a hundred do not empty it. */
const lastsShare = 0.99;

/**
 * Media that one copy of a size takes, in pitches. Common practice, no source: a pair of strips comes from one
 * pitch, which some printers count as two copies of a half.
 */
const pitchesOf: Readonly<Record<PrintSize, readonly number[]>> = {
  "4x6": [1],
  "2x6": [0.5, 1],
  "6x8": [2],
};

/** Printer, paper, spares and the test sheet. */
export function paperChecks(input: ChecksInput): Found[] {
  return [
    printer(input),
    paper(input),
    ...paperEnough(input),
    spares(input),
    testPrint(input),
    ...printSize(input),
  ];
}

function printer(input: ChecksInput): Found {
  const { printer } = input.view;
  if (printer === null || printer.state === null)
    return notPossible("printerAnswers", faultOf(input, "printer"));
  const lost = input.view.faults.find(({ source }) => source.startsWith("printer"));
  if (lost !== undefined) return notPossible("printerAnswers", lost.fault);
  const { state, reasons, queuedJobs, stalledSinceAtMs } = printer;
  if (state === "stopped") return toDo("printerAnswers", { queuedJobs }, worstKeywords(reasons));
  if (stalledSinceAtMs !== null) return toDo("printerAnswers", { queuedJobs }, ["no-sheet-finished"]);
  return seen("printerAnswers", input.atMs, { queuedJobs });
}

function paper({ view: { media } }: ChecksInput): Found {
  if (media === null) return question("paper");
  const { sheetsLeft, figure } = media;
  if (media.question !== null || figure === "doubtful") return question("paper", { sheetsLeft });
  if (sheetsLeft === 0) return toDo("paper", { sheetsLeft });
  return seen("paper", media.atMs, { sheetsLeft, fittedAtMs: media.rollFittedAtMs }, [figure]);
}

/** Nothing is asked while nothing is known of the paper: that is the line before. */
function paperEnough({ view: { outlook, media }, atMs }: ChecksInput): Found[] {
  if (outlook.media === null || media === null) return [];
  const { rolls, lastsChance, leftAtClose } = outlook.media;
  const { sheetsLeft } = media;
  const figures = {
    ...{ needed: rolls.needed, spares: rolls.spares },
    usualSheets: Math.max(0, Math.round(sheetsLeft - leftAtClose.p50)),
    mostSheets: Math.max(0, Math.round(sheetsLeft - leftAtClose.p10)),
  };
  const isEnough = lastsChance >= lastsShare || (rolls.spares !== null && rolls.spares >= rolls.needed);
  return [isEnough ? seen("paperEnough", atMs, figures) : toDo("paperEnough", figures)];
}

/** No booth sees what lies in the box beside it. */
function spares({ booking, view }: ChecksInput): Found {
  return question("sparesThere", { spareRolls: view.media?.spareRolls ?? booking.spareRolls });
}

function testPrint({ facts }: ChecksInput): Found {
  return facts.testPrint === null ? toDo("testPrint") : seen("testPrint", facts.testPrint.atMs);
}

/** Asked once a sheet has come out, and where the plan names sizes. */
function printSize({ booking, facts }: ChecksInput): Found[] {
  const { printSizes } = booking;
  if (printSizes.length === 0 || facts.testPrint === null) return [];
  const { pitchesEach, atMs } = facts.testPrint;
  if (pitchesEach === null) return [question("printSize")];
  const isPlanned = printSizes.some((size) => pitchesOf[size].includes(pitchesEach));
  const found = isPlanned ? seen("printSize", atMs, { pitchesEach }) : toDo("printSize", { pitchesEach });
  return [{ ...found, details: [...printSizes] }];
}
