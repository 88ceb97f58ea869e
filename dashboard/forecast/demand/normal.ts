const cellsPerUnit = 256;
const farthest = 8;
const below = tableBelow();

/** Chance that a standard normal variable is below `z`; off by less than 1e-6. */
export function normalBelow(z: number): number {
  const place = (z + farthest) * cellsPerUnit;
  if (!(place > 0)) return 0;
  const cell = Math.floor(place);
  if (cell >= below.length - 1) return 1;
  const low = below[cell]!;
  return low + (below[cell + 1]! - low) * (place - cell);
}

/** The value that a standard normal variable stays below with chance `share`, 0 < share < 1; off by less than 1e-4. */
export function normalQuantile(share: number): number {
  let low = 0;
  let high = below.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (below[middle]! < share) low = middle;
    else high = middle;
  }
  const width = below[high]! - below[low]!;
  const within = width > 0 ? (share - below[low]!) / width : 0.5;
  return (low + within) / cellsPerUnit - farthest;
}

/** The density added up from the left by Simpson's rule. */
function tableBelow(): Float64Array {
  const density = (z: number) => Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
  const table = new Float64Array(2 * farthest * cellsPerUnit + 1);
  const width = 1 / cellsPerUnit;
  for (let cell = 1; cell < table.length; cell += 1) {
    const left = (cell - 1) * width - farthest;
    const sum = density(left) + 4 * density(left + width / 2) + density(left + width);
    table[cell] = table[cell - 1]! + (sum * width) / 6;
  }
  return table;
}
