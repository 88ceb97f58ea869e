import type { HeatAhead } from "@boothward/shared-types/site";
import type { BoothEvening } from "@boothward/shared-types/view";
import { AsTable } from "../parts/AsTable.tsx";
import { sessions } from "../words/en/booth.ts";
import { heatAhead } from "../words/en/heatAhead.ts";
import type { Format } from "../../alerts/format.ts";
import { heatGroups, sessionRows } from "./tableRows.ts";

type HeatTableProps = { inside: BoothEvening["inside"]; ahead: readonly HeatAhead[]; format: Format };

/** The picture of the temperature as a table: as measured, then as expected at each thermometer. */
export function HeatTable({ inside, ahead, format }: HeatTableProps) {
  return <AsTable columns={heatAhead.columns} groups={heatGroups(inside, ahead, format)} />;
}

/** The picture of the sessions as a table. */
export function SessionTable({ quarters, format }: { quarters: BoothEvening["quarters"]; format: Format }) {
  return <AsTable columns={sessions.columns} rows={sessionRows(quarters, format)} />;
}
