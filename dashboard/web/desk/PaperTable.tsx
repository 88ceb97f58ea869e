import type { SunStretch } from "@boothward/shared-types/site";
import { AsTable } from "../parts/AsTable.tsx";
import type { StripInput } from "../parts/stripShape.ts";
import type { Tried } from "../parts/tried.ts";
import { paper as words } from "../words/en/booth.ts";
import type { Format } from "../../alerts/format.ts";
import { paperRows } from "./paperRows.ts";

type PaperTableProps = {
  input: StripInput;
  tried: Tried | null;
  changesAtMs: readonly number[];
  sun: readonly SunStretch[];
  format: Format;
};

/** The picture of the evening's paper as a table. */
export function PaperTable({ input, tried, changesAtMs, sun, format }: PaperTableProps) {
  return <AsTable columns={words.columns} rows={paperRows(input, tried, changesAtMs, sun, format)} />;
}
