import type { ComponentChildren } from "preact";
import type { AlertView, BoothView } from "@boothward/shared-types/view";
import { alertText, saysWhatToDo } from "../words/alertText.ts";
import { boothPage as words } from "../words/en/booth.ts";
import type { Format } from "../../alerts/format.ts";
import { Chip } from "./Chip.tsx";

const looks = { actNow: "act", plan: "plan", note: "note" } as const;

/**
 * An open alert on its booth's page: the one thing to do, then why. The first one's headline is the page's own,
 * and what that says is not said again.
 */
export function AlertSheet(props: {
  alert: AlertView;
  booth: BoothView;
  nowMs: number;
  format: Format;
  isFirst: boolean;
  /** What is to be weighed besides. */
  children?: ComponentChildren;
}) {
  const { alert, format } = props;
  const text = alertText(alert, props.booth, props.nowMs, format);
  const { headline, doNow, detail, chip } = text;
  const by = alert.byAtMs === null ? null : format.clock(alert.byAtMs);
  const look = looks[alert.severity];
  return (
    <section class={`sheet ${look}`} aria-label={headline}>
      {!props.isFirst && (
        <div class="top">
          <Chip tone={look === "note" ? "fine" : look} word={chip} />
          <b>{headline}</b>
        </div>
      )}
      {!(props.isFirst && saysWhatToDo(text)) && <p class="do">{doNow}</p>}
      <p>{detail}</p>
      {by !== null && !doNow.includes(by) && !detail.includes(by) && <p class="small">{words.by(by)}</p>}
      {props.children}
    </section>
  );
}
