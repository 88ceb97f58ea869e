/**
 * Media one printed page uses, in 4x6 lengths of paper and ribbon: 6x8 is 2, a 4x6 and a page of two 2x6
 * strips are 1. A size that is not known, and one with a kit of its own (5x7), counts as 1.
 *
 * **Source:** common practice, no source: on six inch wide rolls a page longer than six inches takes two.
 */
export function pitchesPerPage(media: readonly string[]): number {
  const size = media.map(sizeIn).find((found) => found !== null);
  if (!size) return 1;
  const [shortIn, longIn] = [Math.min(...size), Math.max(...size)];
  return shortIn > sixInches - sizeSlackIn && longIn > sixInches + sizeSlackIn && longIn < 9.5 ? 2 : 1;
}

/** Sizes that booths print, in inches, the shorter side first. */
const usualSizes: readonly (readonly [number, number])[] = [
  [2, 6],
  [4, 6],
  [5, 7],
  [6, 8],
  [6, 9],
  [8, 10],
  [8, 12],
];

/**
 * The size of a printed page in inches, such as "4x6", from its media's names; null: they do not say. A pair of strips
 * is printed as one page of 4x6 and cut in the printer, so that "4x6" may be strips.
 */
export function pageSize(media: readonly string[]): string | null {
  const size = media.map(sizeIn).find((found) => found !== null);
  if (!size) return null;
  const [shortIn, longIn] = [Math.min(...size), Math.max(...size)];
  const usual = usualSizes.find(
    ([short, long]) => Math.abs(short - shortIn) <= sizeSlackIn && Math.abs(long - longIn) <= sizeSlackIn,
  );
  const [short, long] = usual ?? [inTenths(shortIn), inTenths(longIn)];
  return `${short}x${long}`;
}

function inTenths(inches: number): number {
  return Math.round(inches * 10) / 10;
}

const sixInches = 6;
/** Borderless sizes are a little larger than they are called, metric ones a little smaller. */
const sizeSlackIn = 0.3;
const mmPerIn = 25.4;
const pointsPerIn = 72;

/** Width and height in inches from the media's name, or null. */
function sizeIn(name: string): readonly [number, number] | null {
  // PWG 5101.1 self-describing names end in _WxHin or _WxHmm.
  const pwg = /_(\d+(?:\.\d+)?)x(\d+(?:\.\d+)?)(in|mm)$/.exec(name);
  if (pwg) {
    const perIn = pwg[3] === "mm" ? mmPerIn : 1;
    return [Number(pwg[1]) / perIn, Number(pwg[2]) / perIn];
  }
  // Names in printer descriptions (PPD): points.
  const points = /^w(\d+)h(\d+)/.exec(name);
  if (points) return [Number(points[1]) / pointsPerIn, Number(points[2]) / pointsPerIn];
  const plain = /(?:^|[^\d.])(\d(?:\.\d+)?)x(\d(?:\.\d+)?)(?:in)?(?:$|[^\d.])/.exec(name);
  return plain ? [Number(plain[1]), Number(plain[2])] : null;
}
