/** Why a figure cannot be: in words of code, the page speaks them. */
export type FrameRefusal =
  | "notANumber"
  | "notABearing"
  | "latitudeOutOfRange"
  | "longitudeOutOfRange"
  | "horizonOutOfRange"
  | "sizeOutOfRange"
  | "widerThanTrailer"
  | "higherThanTrailer"
  | "outsideTrailer"
  | "printerNotBehindOpening"
  | "noOpening";

/** The figure that is refused: where it stands, what it is, and the limit it breaks where there is one. */
export type WhyNot = {
  readonly field: string;
  readonly value: number;
  readonly why: FrameRefusal;
  readonly limit: number | null;
};

/** No trailer, hatch or awning is larger; a figure above this was typed in feet, inches or centimetres. */
const largestM = 20;

/**
 * Why a typed bearing is none: it must lie from -180 to 360. One of 725 is refused and not wound round to 5, because
 * a slip of the finger is likelier than two turns.
 */
export function whyNotBearing(field: string, deg: number): WhyNot | null {
  return whyNotWithin(field, deg, [-180, 360], "notABearing");
}

/** Why a size in metres is none: it must be above zero and no more than any trailer has. */
export function whyNotSize(field: string, sizeM: number): WhyNot | null {
  if (sizeM <= 0) return refuse(field, sizeM, "sizeOutOfRange", 0);
  return whyNotLength(field, sizeM);
}

/** The same for a length that may be zero, such as a sill or the depth of an overhang. */
export function whyNotLength(field: string, lengthM: number): WhyNot | null {
  return whyNotWithin(field, lengthM, [0, largestM], "sizeOutOfRange");
}

/** Why a figure is out of a range, its ends allowed. */
export function whyNotWithin(
  field: string,
  value: number,
  [low, high]: readonly [number, number],
  why: FrameRefusal,
): WhyNot | null {
  if (!Number.isFinite(value)) return refuse(field, value, "notANumber");
  if (value < low) return refuse(field, value, why, low);
  return value > high ? refuse(field, value, why, high) : null;
}

export function refuse(field: string, value: number, why: FrameRefusal, limit: number | null = null): WhyNot {
  return { field, value, why, limit };
}

/** The first refusal among many, or null. */
export function firstOf<Each>(all: Iterable<Each>, whyNot: (each: Each) => WhyNot | null): WhyNot | null {
  for (const each of all) {
    const refused = whyNot(each);
    if (refused !== null) return refused;
  }
  return null;
}
