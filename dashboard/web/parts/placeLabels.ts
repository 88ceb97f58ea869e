/** A label of an axis: what, where, how it stands there; the first in a list of labels has the first right. */
export type Label = {
  text: string;
  xPx: number;
  anchor: "start" | "middle" | "end";
  tone?: "b" | "soon" | "plan";
};

/** Width of a digit in the plain face as a share of its size: tabular, measured in the built page. */
const charShare = 0.6;

/**
 * The labels that can stand side by side within the width and `slackPx` at both ends: later ones give way to
 * earlier ones.
 */
export function placeLabels(
  labels: readonly Label[],
  textPx: number,
  widthPx: number,
  slackPx = textPx,
): Label[] {
  const placed: { label: Label; from: number; to: number }[] = [];
  for (const label of labels) {
    const longPx = label.text.length * textPx * charShare;
    const from =
      label.anchor === "start"
        ? label.xPx
        : label.anchor === "end"
          ? label.xPx - longPx
          : label.xPx - longPx / 2;
    const to = from + longPx;
    const isFree = placed.every((other) => to + textPx / 2 < other.from || from > other.to + textPx / 2);
    if (isFree && from > -slackPx && to < widthPx + slackPx) placed.push({ label, from, to });
  }
  return placed.map((each) => each.label);
}
