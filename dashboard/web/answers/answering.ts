import type { AlertView } from "@boothward/shared-types/view";
import type { AlertAnswer } from "@boothward/shared-types/words";
import { answers as words } from "../words/en/answers.ts";
import type { Format } from "../../alerts/format.ts";
import type { Said } from "./answerQueue.ts";

/** So long after "Done" it is said that it is not seen yet. */
export const notSeenAfterMs = 2 * 60_000;

/** What was answered to an alert, by what the dashboard knows and what still waits on this device. */
export type Answering = {
  pressed: ReadonlySet<AlertAnswer>;
  taken: AlertView["taken"];
  laterUntilAtMs: number | null;
  doneAtMs: number | null;
  /** Something of it waits to be sent. */
  isKept: boolean;
};

/** The alert's answers with the presses of `by` that wait laid over them. */
export function answering(alert: AlertView, waiting: readonly Said[], by: string, nowMs: number): Answering {
  const own = waiting.filter(({ alertId }) => alertId === alert.alertId);
  const saidAtMs = (answer: AlertAnswer) => own.find((each) => each.answer === answer)?.saidAtMs ?? null;
  const doneAtMs = alert.doneAtMs ?? saidAtMs("done");
  const tookAtMs = saidAtMs("take") ?? saidAtMs("done");
  const taken = alert.taken ?? (tookAtMs === null ? null : { by, atMs: tookAtMs });
  const isPutOff = alert.laterUntilAtMs !== null && alert.laterUntilAtMs > nowMs;
  const pressed = new Set<AlertAnswer>();
  if (taken !== null) pressed.add("take");
  if (isPutOff || saidAtMs("later") !== null) pressed.add("later");
  if (doneAtMs !== null) pressed.add("done");
  return {
    pressed,
    taken,
    laterUntilAtMs: isPutOff ? alert.laterUntilAtMs : null,
    doneAtMs,
    isKept: own.length > 0,
  };
}

/** Why a printer stands still that a new roll ends; a jam is no such reason. */
const rollReasons: ReadonlySet<string> = new Set([
  ...["media-empty", "media-needed", "media-low"],
  ...["marker-supply-empty", "marker-supply-low"],
]);

/** Matters that a new roll ends. */
export const isAboutPaper = ({ matter, reasons }: AlertView): boolean =>
  matter === "mediaLow" || (matter === "printerStopped" && reasons.some((each) => rollReasons.has(each)));

/** What the answers come to, in a sentence or two; empty where nobody has answered. */
export function answeringText(
  alert: AlertView,
  { taken, laterUntilAtMs, doneAtMs, isKept, pressed }: Answering,
  with_: { by: string; nowMs: number; format: Format },
): string {
  const { format, nowMs, by } = with_;
  const sentences: string[] = [];
  if (doneAtMs !== null && alert.overAtMs === null) sentences.push(doneText(alert, doneAtMs, nowMs, format));
  else if (taken !== null)
    sentences.push(
      taken.by === by
        ? words.yours(format.clock(taken.atMs))
        : words.taken(taken.by, format.clock(taken.atMs)),
    );
  if (laterUntilAtMs !== null) sentences.push(words.asksAgain(format.clock(laterUntilAtMs)));
  else if (pressed.has("later")) sentences.push(words.putOff);
  if (isKept) sentences.push(words.kept);
  return sentences.join(" ");
}

function doneText(alert: AlertView, doneAtMs: number, nowMs: number, format: Format): string {
  if (nowMs - doneAtMs < notSeenAfterMs) return words.looking(format.clock(doneAtMs));
  return isAboutPaper(alert) ? words.noRollYet : words.notSeenYet;
}
