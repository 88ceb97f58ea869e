/** Radii of the roll seen end on: the area of its ring is the paper that is left. */
export type RollShape = { fullPx: number; corePx: number; paperPx: number; wind: string };

/** The core's share of a full roll's radius; distance between two drawn windings, px. */
const coreShare = 0.3;
const windingPx = 3.3;

/** Shape of a roll with `left` of `kit` sheets in a square of `sizePx`. */
export function rollShape(left: number, kit: number, sizePx: number): RollShape {
  const fullPx = sizePx / 2 - 1;
  const corePx = fullPx * coreShare;
  const part = Math.min(1, Math.max(0, left / kit));
  const paperPx = Math.sqrt(corePx ** 2 + (fullPx ** 2 - corePx ** 2) * part);
  return { fullPx, corePx, paperPx, wind: part === 0 ? "" : windingPath(corePx + 1, paperPx, sizePx / 2) };
}

/** A spiral from the rim to the core that ends at the bottom, where the paper leaves the roll. */
function windingPath(fromPx: number, toPx: number, centrePx: number): string {
  const turns = Math.max(0.5, (toPx - fromPx) / windingPx);
  const steps = Math.floor(turns * 24);
  let path = "";
  for (let step = 0; step <= steps; step += 1) {
    const turn = step / 24;
    const angle = Math.PI / 2 + (turns - turn) * 2 * Math.PI;
    const radius = fromPx + (toPx - fromPx) * (turn / turns);
    const x = (centrePx + radius * Math.cos(angle)).toFixed(1);
    const y = (centrePx + radius * Math.sin(angle)).toFixed(1);
    path += `${step === 0 ? "M" : "L"}${x} ${y}`;
  }
  return path;
}
