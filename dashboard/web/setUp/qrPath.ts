/** A square of modules, row by row; not 0 is dark. */
export type Modules = { readonly size: number; readonly data: ArrayLike<number> };

/** Light modules around the code (ISO/IEC 18004 section 9.1 asks for four; from memory). */
export const quietModules = 4;

/** The dark modules of a code as the path of a drawing, one unit a module, runs of a row as one bar. */
export function qrPath({ size, data }: Modules): string {
  const bars: string[] = [];
  for (let y = 0; y < size; y += 1)
    for (let x = 0; x < size; x += 1) {
      let run = 0;
      while (x + run < size && data[y * size + x + run] !== 0) run += 1;
      if (run > 0) bars.push(`M${x + quietModules} ${y + quietModules}h${run}v1h-${run}z`);
      x += run;
    }
  return bars.join("");
}
