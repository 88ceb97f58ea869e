import { useState } from "preact/hooks";
import { copying } from "../words/en/form.ts";

/** Puts a text on the clipboard and says so; without a clipboard (plain HTTP) it says that as well. */
export function CopyButton({ text, word, isMain = false }: { text: string; word: string; isMain?: boolean }) {
  const [said, setSaid] = useState("");
  const copy = () => {
    // Browsers have no clipboard on pages that came over plain HTTP.
    const clipboard: Clipboard | undefined = navigator.clipboard;
    if (clipboard === undefined) setSaid(copying.failed);
    else
      clipboard.writeText(text).then(
        () => setSaid(copying.done),
        () => setSaid(copying.failed),
      );
  };
  return (
    <button type="button" class={`btn ${isMain ? "main" : ""}`} onClick={copy}>
      <span aria-live="polite">{said === "" ? word : said}</span>
    </button>
  );
}
