/** Rows that belong together under a name of their own. */
export type RowGroup = { name: string; rows: readonly (readonly string[])[] };

/** A table of words and figures. */
export function FigureTable(props: {
  columns: readonly string[];
  rows: readonly (readonly string[])[];
  groups?: readonly RowGroup[];
  /** The last line, for what the rows come to. */
  sum?: readonly string[];
}) {
  const { columns, rows, groups = [], sum } = props;
  return (
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
      {sum !== undefined && (
        <tfoot>
          <tr class="sum">
            {sum.map((cell, i) => (
              <td key={columns[i]}>{cell}</td>
            ))}
          </tr>
        </tfoot>
      )}
      {groups.map((group) => (
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
  );
}

function rowOf(row: readonly string[], columns: readonly string[]) {
  return (
    <tr key={row.join()}>
      {row.map((cell, i) => (
        <td key={columns[i]}>{cell}</td>
      ))}
    </tr>
  );
}
