import { boothPage } from "../words/en/booth.ts";
import { FigureTable, type RowGroup } from "./FigureTable.tsx";

/** The figures of a picture as rows, for eyes and readers that a picture does not serve. */
export function AsTable(props: {
  /** What opens it; the usual words where there is none. */
  name?: string;
  columns: readonly string[];
  rows?: readonly (readonly string[])[];
  groups?: readonly RowGroup[];
}) {
  const { columns, rows = [], groups = [] } = props;
  const shown = groups.filter((group) => group.rows.length > 0);
  if (rows.length === 0 && shown.length === 0) return null;
  return (
    <details>
      <summary>{props.name ?? boothPage.table}</summary>
      <FigureTable columns={columns} rows={rows} groups={shown} />
    </details>
  );
}
