declare module "pino-roll" {
  import type { DestinationStream } from "pino";

  /** Opens `FILE.N` and goes on to the next number when it has grown to `size` ("10m"). */
  export default function openRolling(options: {
    file: string;
    size: string;
    limit: { count: number };
  }): Promise<DestinationStream>;
}
