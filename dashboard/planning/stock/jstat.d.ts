/** The part of the statistics package that is used; it comes without types. */
declare module "jstat" {
  const jStat: {
    readonly gamma: { inv(share: number, shape: number, scale: number): number };
    readonly normal: {
      cdf(x: number, mean: number, sd: number): number;
      inv(share: number, mean: number, sd: number): number;
    };
  };
  export = jStat;
}
