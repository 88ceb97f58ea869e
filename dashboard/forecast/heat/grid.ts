/** The bank's members are all combinations of these. Fitted on simulated trailers and on records of real rooms. */

/** A room deep in a house hardly follows the outside. Its chance, to each of the others: most booths know the weather. */
const deepMin = 3000;
const deepChance = 0.37;
/** How fast the air follows what is outside the walls, min. */
const outwardMin = [25, 80, 300, deepMin] as const;
/** How fast the air follows the walls and all that stands inside, min. */
const innerMin = [4, 18, 120] as const;
/** How fast an unexplained heating dies away, min. */
const pushMin = [10, 60] as const;
/** How fast unexplained heating changes: C/min in a minute, by chance to and fro. */
const pushSdCPerMin = [0.001, 0.004, 0.015, 0.05] as const;
/** How far readings scatter, C. The least must be small: a larger one would ruin smooth series. */
const sensorSdC = [0.004, 0.03, 0.1, 0.3] as const;

/** How the heat moves: members of one motion follow each other in the bank. */
export type Motion = { readonly outwardMin: number; readonly innerMin: number; readonly pushMin: number };

export const motions: readonly Motion[] = outwardMin.flatMap((outward) =>
  innerMin.flatMap((inner) =>
    pushMin.map((push) => ({ outwardMin: outward, innerMin: inner, pushMin: push })),
  ),
);

const scatters = pushSdCPerMin.flatMap((push) => sensorSdC.map((sensor) => ({ push, sensor })));
export const membersPerMotion = scatters.length;
export const memberCount = motions.length * membersPerMotion;

/** By member: the logarithm of how likely it is, whatever the readings say. */
export const logPriorOf = Float64Array.from({ length: memberCount }, (_, at) =>
  Math.log(motions[Math.floor(at / membersPerMotion)]!.outwardMin === deepMin ? deepChance : 1),
);

/** By member: how fast its unexplained heating changes, and how far it believes readings scatter, C. */
export const pushSdOf = Float64Array.from(
  { length: memberCount },
  (_, at) => scatters[at % membersPerMotion]!.push,
);
export const sensorVarOf = Float64Array.from(
  { length: memberCount },
  (_, at) => scatters[at % membersPerMotion]!.sensor ** 2,
);
