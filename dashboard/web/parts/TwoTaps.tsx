import { useEffect, useRef, useState } from "preact/hooks";

/** A button for what cannot be undone: the first tap asks, the second does it. */
export function TwoTaps(props: { word: string; ask: string; yes: string; no: string; act: () => void }) {
  const [isAsking, setAsking] = useState(false);
  const yes = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    if (isAsking) yes.current?.focus();
  }, [isAsking]);
  if (!isAsking)
    return (
      <button type="button" class="btn" onClick={() => setAsking(true)}>
        {props.word}
      </button>
    );
  return (
    <div role="group" aria-label={props.ask} class="asking">
      <p>{props.ask}</p>
      <div class="row">
        <button type="button" class="btn grave" ref={yes} onClick={props.act}>
          {props.yes}
        </button>
        <button type="button" class="btn" onClick={() => setAsking(false)}>
          {props.no}
        </button>
      </div>
    </div>
  );
}
