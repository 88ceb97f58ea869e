import { useEffect, useRef, useState } from "preact/hooks";

type TwoTapsProps = {
  word: string;
  ask: string;
  yes: string;
  no: string;
  /** Something is lost by it; that is the usual. */
  isGrave?: boolean;
  act: () => void;
};

/** A button for what a slip of the finger must not do: the first tap asks, the second does it. */
export function TwoTaps(props: TwoTapsProps) {
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
        <button
          type="button"
          class={`btn ${props.isGrave === false ? "main" : "grave"}`}
          ref={yes}
          onClick={props.act}
        >
          {props.yes}
        </button>
        <button type="button" class="btn" onClick={() => setAsking(false)}>
          {props.no}
        </button>
      </div>
    </div>
  );
}
