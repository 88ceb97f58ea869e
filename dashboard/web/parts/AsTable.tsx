import { boothPage } from "../words/en/booth.ts";

/** Rows that belong together under a name of their own. */
export type RowGroup = { name: string; rows: readonly (readonly string[])[] };

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
      <table>
        <thead>
          <tr>
            {columns.map((column) => (
              <th key={column} scope="col">
                {column}
              </th>
            ))}
          </tr>
        </thead>
        {rows.length > 0 && <tbody>{rows.map((row) => rowOf(row, columns))}</tbody>}
        {shown.map((group) => (
          <tbody key={group.name}>
            <tr>
              <th scope="rowgroup" colSpan={columns.length} class="group">
                {group.name}
              </th>
            </tr>
            {group.rows.map((row) => rowOf(row, columns))}
          </tbody>
        ))}
      </table>
    </details>
  );
}

function rowOf(row: readonly string[], columns: readonly string[]) {
  return (
    <tr key={row[0]}>
      {row.map((cell, i) => (
        <td key={columns[i]}>{cell}</td>
      ))}
    </tr>
  );
}
