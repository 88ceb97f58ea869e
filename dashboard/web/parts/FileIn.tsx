import { fileRead, type FileRead } from "@boothward/shared-types/stock";
import { useId, useState } from "preact/hooks";
import { usePage } from "../state/pageContext.ts";
import { useSend } from "../state/useSend.ts";
import { fileIn as words } from "../words/en/planFiles.ts";
import { AsTable } from "./AsTable.tsx";
import { FormRefusal } from "./Field.tsx";
import { Icon } from "./Icon.tsx";
import { readFileText } from "./readFileText.ts";

/** A file that was chosen, and what the dashboard would make of it. */
type Looked = { readonly body: object; readonly read: FileRead };

/**
 * Takes lines from a file: first it is only looked at and said what it would do, then a second press keeps all of
 * it. A file with a line that cannot be taken is not kept at all.
 */
export function FileIn(props: {
  address: string;
  label: string;
  hint?: string;
  accept: string;
  /** What is sent beside `isLook`. */
  bodyOf: (text: string, name: string) => object;
  kept: () => void;
}) {
  const page = usePage();
  const id = useId();
  const { refusal, isBusy, send } = useSend();
  const [looked, setLooked] = useState<Looked | null>(null);
  const [said, setSaid] = useState("");
  const look = async (input: HTMLInputElement) => {
    const [file] = input.files ?? [];
    setLooked(null);
    setSaid("");
    if (file === undefined) return;
    const text = await readFileText(file);
    if (text === null) return setSaid(words.unreadable);
    const body = props.bodyOf(text, file.name);
    const read = await send(() => page.call("POST", props.address, fileRead, { ...body, isLook: true }));
    if (read !== null) setLooked({ body, read });
    // The same name chosen again, put right, is to be read again.
    input.value = "";
  };
  const keep = async ({ body }: Looked) => {
    const read = await send(() => page.call("POST", props.address, fileRead, { ...body, isLook: false }));
    if (read === null) return;
    if (!read.isKept) return setLooked({ body, read });
    setLooked(null);
    setSaid(words.kept(read.counts.new + read.counts.change));
    props.kept();
  };
  return (
    <div class="filein">
      <div class="field">
        <label for={id}>{props.label}</label>
        <input
          type="file"
          id={id}
          accept={props.accept}
          disabled={isBusy}
          aria-describedby={`${id}-hint`}
          onChange={(event) => void look(event.currentTarget)}
        />
        {props.hint !== undefined && (
          <span class="small" id={`${id}-hint`}>
            {props.hint}
          </span>
        )}
      </div>
      <FormRefusal refusal={refusal} shown={[]} />
      <p role="status" class="cap">
        {isBusy ? words.reading : said}
      </p>
      {looked !== null && <Preview read={looked.read} isBusy={isBusy} keep={() => void keep(looked)} />}
    </div>
  );
}

function Preview({ read, isBusy, keep }: { read: FileRead; isBusy: boolean; keep: () => void }) {
  const taken = read.counts.new + read.counts.change;
  return (
    <>
      {read.problemCount > 0 ? (
        <>
          <p class="wrongfile">
            <Icon name="act" />
            <span>{words.problems(read.problemCount)}</span>
          </p>
          <ul class="fileproblems">
            {read.problems.map(({ line, column, sentence }) => (
              <li key={`${line} ${column}`}>{words.problem(line, column, sentence)}</li>
            ))}
            {read.problemCount > read.problems.length && (
              <li>{words.andMore(read.problemCount - read.problems.length)}</li>
            )}
          </ul>
        </>
      ) : (
        <p>{taken === 0 ? words.nothing : `${words.counts(read.counts)}.`}</p>
      )}
      <AsTable
        name={words.rows}
        columns={words.columns}
        rows={read.rows.map(({ line, text, does }) => [String(line), text, words.does[does]])}
      />
      {read.problemCount === 0 && taken > 0 && (
        <div class="row">
          <button type="button" class="btn main" disabled={isBusy} onClick={keep}>
            {words.keep(taken)}
          </button>
        </div>
      )}
    </>
  );
}
