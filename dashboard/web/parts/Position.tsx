import { useState } from "preact/hooks";
import { readPosition } from "../../planning/readPosition.ts";
import type { Refusal } from "../state/api.ts";
import type { BookingEntry } from "../state/apiShapes.ts";
import { bookingForm as words } from "../words/en/runSheet.ts";
import { Field } from "./Field.tsx";

/** Latitude and longitude of the place: written, pasted from a map, or taken from the phone; both may stay empty. */
export function Position({ booking, refusal }: { booking: BookingEntry | null; refusal: Refusal | null }) {
  const [position, setPosition] = useState({
    latitudeDeg: booking?.latitudeDeg?.toString() ?? "",
    longitudeDeg: booking?.longitudeDeg?.toString() ?? "",
  });
  const [said, setSaid] = useState("");
  const paste = (text: string) => {
    const place = readPosition(text);
    if (place !== null)
      setPosition({ latitudeDeg: String(place.latitudeDeg), longitudeDeg: String(place.longitudeDeg) });
    setSaid(text.trim() === "" ? "" : place === null ? words.pasteFailed : words.pasted);
  };
  // Browsers tell the position only to pages that came over HTTPS or from the same computer.
  const locator: Geolocation | undefined = isSecureContext ? navigator.geolocation : undefined;
  const locate = () =>
    locator?.getCurrentPosition(
      ({ coords }) =>
        setPosition({ latitudeDeg: coords.latitude.toFixed(4), longitudeDeg: coords.longitude.toFixed(4) }),
      () => setSaid(words.hereFailed),
    );
  return (
    <fieldset class="field">
      <legend>{words.position}</legend>
      <div class="two">
        {(["latitudeDeg", "longitudeDeg"] as const).map((name) => (
          <Field
            key={name}
            name={name}
            label={words[name]}
            inputmode="decimal"
            value={position[name]}
            onWrite={(written) => setPosition({ ...position, [name]: written })}
            refusal={refusal}
          />
        ))}
      </div>
      <Field
        name="pasted"
        label={words.paste}
        hint={words.pasteHint}
        autocomplete="off"
        onWrite={paste}
        refusal={null}
      />
      {locator !== undefined && (
        <button type="button" class="btn" onClick={locate}>
          {words.here}
        </button>
      )}
      <span class="small" role="status">
        {said}
      </span>
    </fieldset>
  );
}
