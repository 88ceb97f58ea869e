import { useState } from "preact/hooks";
import { CopyButton } from "../parts/CopyButton.tsx";
import { FormRefusal } from "../parts/Field.tsx";
import { later } from "../parts/later.tsx";
import { TwoTaps } from "../parts/TwoTaps.tsx";
import { passList } from "../state/alertShapes.ts";
import type { MadePass, PassEntry } from "../state/alertShapes.ts";
import { done } from "../state/api.ts";
import { bookingList } from "../state/apiShapes.ts";
import type { BookingEntry, BoothEntry } from "../state/apiShapes.ts";
import { usePage } from "../state/pageContext.ts";
import { formatOf } from "../state/signals.ts";
import { useAnswer } from "../state/useAnswer.ts";
import { useSend } from "../state/useSend.ts";
import { passes as words } from "../words/en/people.ts";
import { PassForm } from "./PassForm.tsx";
import "../styles/people.css";

const QrCode = later(
  () => import("./QrCode.tsx").then((file) => file.QrCode),
  () => <div class="qr" />,
);

/** Letting attendants in: a link for one or more bookings, as a code too, and the links that stand. */
export function Passes({ booths }: { booths: readonly BoothEntry[] }) {
  const bookings = useAnswer("/api/bookings", bookingList);
  const passes = useAnswer("/api/passes", passList);
  const [made, setMade] = useState<{ name: string; pass: MadePass } | null>(null);
  return (
    <section class="sheet people" id="attendants">
      <h2>{words.title}</h2>
      <p class="small">{words.lead}</p>
      <FormRefusal refusal={bookings.refusal ?? passes.refusal} shown={[]} />
      {made === null ? (
        <PassForm
          bookings={bookings.answer?.bookings ?? []}
          booths={booths}
          made={(name, pass) => {
            setMade({ name, pass });
            void passes.again();
          }}
        />
      ) : (
        <Made {...made} another={() => setMade(null)} />
      )}
      <h3>{words.standing}</h3>
      {passes.answer?.passes.length === 0 && <p class="small">{words.none}</p>}
      {passes.answer?.passes.map((pass) => (
        <Standing
          key={pass.passId}
          pass={pass}
          bookings={bookings.answer?.bookings ?? []}
          booths={booths}
          changed={() => void passes.again()}
        />
      ))}
    </section>
  );
}

function Made({ name, pass, another }: { name: string; pass: MadePass; another: () => void }) {
  const { origin } = usePage();
  const format = formatOf(null);
  const link = origin + pass.path;
  return (
    <>
      <h3>{words.made(name)}</h3>
      <p>{words.code}</p>
      <QrCode text={link} label={words.codeLabel} />
      <p class="cap">
        <code>{link}</code>
      </p>
      <p class="small">{words.ends(format.day(pass.endsAtMs), format.clock(pass.endsAtMs))}</p>
      <div class="row">
        <CopyButton text={link} word={words.copy} isMain />
        <button type="button" class="btn" onClick={another}>
          {words.another}
        </button>
      </div>
    </>
  );
}

type StandingProps = {
  pass: PassEntry;
  bookings: readonly BookingEntry[];
  booths: readonly BoothEntry[];
  changed: () => void;
};

function Standing({ pass, bookings, booths, changed }: StandingProps) {
  const page = usePage();
  const format = formatOf(null);
  const { refusal, send } = useSend();
  const revoke = async () => {
    const address = `/api/passes/${encodeURIComponent(pass.passId)}`;
    if ((await send(() => page.call("DELETE", address, done))) !== null) changed();
  };
  const boothIds = bookings
    .filter(({ bookingId }) => pass.bookingIds.includes(bookingId))
    .map(({ boothId }) => boothId);
  const names = booths.filter(({ boothId }) => boothIds.includes(boothId)).map(({ name }) => name);
  return (
    <div class="person">
      <p>
        <b>{pass.name}</b> {names.join(", ")},{" "}
        {words.until(format.day(pass.endsAtMs), format.clock(pass.endsAtMs))}
      </p>
      <ul class="small">
        {pass.devices.length === 0 && <li>{words.noDevice}</li>}
        {pass.devices.map(({ device, createdAtMs }) => (
          <li key={createdAtMs}>{words.device(device ?? words.unknownDevice, format.clock(createdAtMs))}</li>
        ))}
      </ul>
      <FormRefusal refusal={refusal} shown={[]} />
      <TwoTaps
        word={words.revoke}
        ask={words.revokeAsk(pass.name)}
        yes={words.revokeYes}
        no={words.revokeNo}
        act={() => void revoke()}
      />
    </div>
  );
}
