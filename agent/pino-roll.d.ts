declare module "pino-roll" {
  import type { DestinationStream } from "pino";

  /** Opens `FILE.N` and goes on to the next number when it has grown to `size` ("10m"). */
  // eslint-disable-next-line import-x/no-default-export -- it is how the package exports it
  export default function openRolling(options: {
    file: string;
    size: string;
    limit: { count: number };
  }): Promise<DestinationStream>;
}
