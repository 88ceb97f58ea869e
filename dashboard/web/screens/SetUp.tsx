import { useState } from "preact/hooks";
import { BoothEntrySheet } from "../parts/BoothEntrySheet.tsx";
import { BoothForm } from "../parts/BoothForm.tsx";
import { CopyButton } from "../parts/CopyButton.tsx";
import { FormRefusal } from "../parts/Field.tsx";
import { Frame, Mark } from "../parts/Frame.tsx";
import { later } from "../parts/later.tsx";
import { Picks } from "../parts/Picks.tsx";
import { done, whoAmI } from "../state/api.ts";
import { boothList, signInLink } from "../state/apiShapes.ts";
import { usePage } from "../state/pageContext.ts";
import { formatOf, themeChoice, units } from "../state/signals.ts";
import { useAnswer } from "../state/useAnswer.ts";
import { useSend } from "../state/useSend.ts";
import { setUp as words } from "../words/en/setUp.ts";

const Nothing = () => null;
const more = () => import("../setUp/setUpMore.ts");
const Passes = later(() => more().then((file) => file.Passes), Nothing);
const Reaches = later(() => more().then((file) => file.Reaches), Nothing);
const NoticeSettings = later(() => more().then((file) => file.NoticeSettings), Nothing);
const HowReached = later(() => more().then((file) => file.HowReached), Nothing);
const AddressAbilities = later(() => more().then((file) => file.AddressAbilities), Nothing);
const BusinessForm = later(
  () => import("../report/BusinessForm.tsx").then((file) => file.BusinessForm),
  () => null,
);

/** Booths and their computers, this device's choices, other phones, signing out. */
export function SetUp() {
  const { answer, refusal, again } = useAnswer("/api/booths", boothList);
  const [isAdding, setAdding] = useState(false);
  return (
    <Frame title={words.title} bar={<Mark />}>
      <div class="verdict">
        <h1 tabIndex={-1}>{words.title}</h1>
        <nav class="jumps" aria-label={words.onThisPage}>
          {Object.entries(words.jumps).map(([part, name]) => (
            <a key={part} href={`#${part}`}>
              {name}
            </a>
          ))}
        </nav>
      </div>
      <div class="cols">
        <div id="booths">
          <FormRefusal refusal={refusal} shown={[]} />
          {answer === null && refusal === null && <p>{words.asking}</p>}
          {answer?.booths.map((booth) => (
            <BoothEntrySheet key={booth.boothId} booth={booth} changed={() => void again()} />
          ))}
          {answer !== null && (
            <section class="sheet">
              {(isAdding || answer.booths.length === 0) && (
                <h2>{answer.booths.length === 0 ? words.none : words.addBooth}</h2>
              )}
              {isAdding || answer.booths.length === 0 ? (
                <BoothForm
                  booth={null}
                  done={() => {
                    setAdding(false);
                    void again();
                  }}
                  cancel={answer.booths.length === 0 ? null : () => setAdding(false)}
                />
              ) : (
                <button type="button" class="btn" onClick={() => setAdding(true)}>
                  {words.addBooth}
                </button>
              )}
            </section>
          )}
          {answer !== null && <Passes booths={answer.booths} />}
          <NoticeSettings />
        </div>
        <div>
          <Device />
          <HowReached />
          <Reaches />
          <AddressAbilities />
          <OtherPhone />
          <BusinessForm />
          <SignedIn />
        </div>
      </div>
    </Frame>
  );
}

function Device() {
  const page = usePage();
  return (
    <section class="sheet" id="device">
      <h2>{words.device}</h2>
      <Picks
        label={words.theme}
        name="theme"
        options={words.themes}
        chosen={themeChoice.value}
        choose={(choice) => {
          themeChoice.value = choice;
          page.keep("theme", choice);
        }}
      />
      <p class="small">{words.themeHint}</p>
      <Picks
        label={words.units}
        name="units"
        options={words.unitNames}
        chosen={units.value}
        choose={(choice) => {
          units.value = choice;
          page.keep("units", choice);
        }}
      />
    </section>
  );
}

function OtherPhone() {
  const page = usePage();
  const { refusal, isBusy, send } = useSend();
  const [link, setLink] = useState<{ address: string; expiresAtMs: number } | null>(null);
  const make = async () => {
    const made = await send(() => page.call("POST", "/api/sign-in-links", signInLink));
    if (made !== null) setLink({ address: page.origin + made.path, expiresAtMs: made.expiresAtMs });
  };
  return (
    <section class="sheet">
      <h2>{words.phone}</h2>
      <p class="small">{words.phoneHint}</p>
      <FormRefusal refusal={refusal} shown={[]} />
      {link === null ? (
        <div class="row">
          <button type="button" class="btn" disabled={isBusy} onClick={() => void make()}>
            {words.makeLink}
          </button>
        </div>
      ) : (
        <>
          <p class="cap">
            <code>{link.address}</code>
          </p>
          <p class="small">{words.linkGood(formatOf(null).clock(link.expiresAtMs))}</p>
          <div class="row">
            <CopyButton text={link.address} word={words.copyLink} isMain />
          </div>
        </>
      )}
    </section>
  );
}

function SignedIn() {
  const page = usePage();
  const { answer } = useAnswer("/api/me", whoAmI);
  const { refusal, isBusy, send } = useSend();
  const signOut = async () => {
    if ((await send(() => page.call("POST", "/api/sign-out", done))) !== null) page.signedOut();
  };
  return (
    <section class="sheet">
      <h2>{words.signedInAs(answer?.signedIn?.name ?? "…")}</h2>
      <FormRefusal refusal={refusal} shown={[]} />
      <button type="button" class="btn" disabled={isBusy} onClick={() => void signOut()}>
        {words.signOut}
      </button>
    </section>
  );
}
