import { useEffect, useRef, useState } from "preact/hooks";
import { Frame, Mark } from "../parts/Frame.tsx";
import type { Refusal } from "../state/api.ts";
import { joined } from "../state/alertShapes.ts";
import { usePage } from "../state/pageContext.ts";
import { formatOf, me } from "../state/signals.ts";
import { useBoothNames } from "../state/useBoothNames.ts";
import { join as words } from "../words/en/reach.ts";
import { listed } from "../words/en/today.ts";

type In = { name: string; endsAtMs: number };

/** The attendant's way in: a pass in the fragment, which is taken out of the address, and nothing to fill in. */
export function Join() {
  const page = usePage();
  const token = useRef(page.takeFragment().replace(/^pass=/, ""));
  const [entered, setEntered] = useState<In | null>(null);
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const enter = async () => {
    setRefusal(null);
    const came = await page.call("POST", "/api/join", joined, { token: token.current });
    if ("refusal" in came) return setRefusal(came.refusal);
    me.value = { name: came.value.name, role: "attendant" };
    page.keep("role", "attendant");
    setEntered(came.value);
  };
  useEffect(() => {
    if (token.current !== "") void enter();
  }, []);
  if (entered !== null) return <Entered {...entered} />;
  return (
    <Frame title={words.title} bar={<Mark />} isBare>
      <div class="verdict" role="status">
        {token.current === "" ? (
          <>
            <h1 tabIndex={-1}>{words.title}</h1>
            <p>{words.noToken}</p>
          </>
        ) : (
          <Asked refusal={refusal} again={() => void enter()} />
        )}
      </div>
    </Frame>
  );
}

/** While the pass is looked at, and what was said against it. */
function Asked({ refusal, again }: { refusal: Refusal | null; again: () => void }) {
  if (refusal === null) return <h1 tabIndex={-1}>{words.asking}</h1>;
  const known = words.refused[refusal.error];
  return (
    <>
      <h1 tabIndex={-1}>{known ?? refusal.sentence}</h1>
      {known === undefined ? (
        <div class="row">
          <button type="button" class="btn main big" onClick={again}>
            {words.again}
          </button>
        </div>
      ) : (
        <p>{words.ask}</p>
      )}
    </>
  );
}

function Entered({ name, endsAtMs }: In) {
  const names = useBoothNames();
  const format = formatOf(null);
  return (
    <Frame title={words.title} bar={<Mark />} isBare>
      <div class="verdict" role="status">
        <h1 tabIndex={-1}>{names.length === 0 ? words.youOnly(name) : words.you(name, listed(names))}</h1>
        <p>{words.until(format.day(endsAtMs), format.clock(endsAtMs))}</p>
      </div>
      <a class="btn main big" href="/">
        {words.go(names.length)}
      </a>
    </Frame>
  );
}
