import type { BoothView } from "@boothward/shared-types/view";
import { paperBand, paperHeading } from "../words/boothWords.ts";
import { paper as words } from "../words/en/booth.ts";
import type { Format } from "../words/format.ts";
import { AsTable } from "./AsTable.tsx";
import { EveningPicture } from "./EveningPicture.tsx";
import { stripInput } from "./stripInput.ts";
import { paperRows } from "./tableRows.ts";

/** The paper of the evening: its sentence, its picture, how sure it is, and the same as a table. */
export function EveningSheet(props: { booth: BoothView; nowMs: number; isOld: boolean; format: Format }) {
  const { booth, nowMs, isOld, format } = props;
  const input = stripInput(booth, nowMs, isOld, null);
  const heading = paperHeading(booth, format, isOld);
  return (
    <section class="sheet">
      <h2>{heading}</h2>
      {input !== null && (
        <>
          <EveningPicture
            input={input}
            changesAtMs={booth.rollChangesAtMs}
            isOld={isOld}
            format={format}
            label={`${words.label} ${heading}`}
          />
          <p class="cap">{`${paperBand(booth, format)} ${isOld ? words.oldInk : words.ink}`.trim()}</p>
          <AsTable columns={words.columns} rows={paperRows(input, format)} />
        </>
      )}
    </section>
  );
}
