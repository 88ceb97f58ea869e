import type { Place } from "./greatCircleKm.ts";

/**
 * The position in a text that somebody copied from a map: a geo: address, a link that carries it, or the two figures
 * themselves, decimal or in degrees, minutes and seconds. Null where there is none, or more than the earth has.
 *
 * Source: RFC 5870 for geo:; ISO 6709 annex D for degrees, minutes and seconds.
 */
export function readPosition(text: string): Place | null {
  const plain = decoded(text).normalize("NFKC").replaceAll("−", "-").trim();
  for (const read of [readGeo, readLink, readSexagesimal, readDecimal]) {
    const place = read(plain);
    if (place !== null) return onEarth(place);
  }
  return null;
}

/** Links carry a comma as %2C and a degree sign as %C2%B0. */
function decoded(text: string): string {
  try {
    return decodeURIComponent(text.replaceAll("+", "%20"));
  } catch {
    return text;
  }
}

const figure = "-?\\d{1,3}(?:\\.\\d+)?";

/** RFC 5870: "geo:" two or three figures, parameters; other coordinate systems than WGS-84 are not read. */
function readGeo(text: string): Place | null {
  const found = new RegExp(`^geo:(${figure}),(${figure})(?:,-?\\d+(?:\\.\\d+)?)?((?:;[^?\\s]*)?)`, "i").exec(
    text,
  );
  if (found === null) return null;
  const system = /;crs=([^;]+)/i.exec(found[3] ?? "")?.[1];
  if (system !== undefined && system.toLowerCase() !== "wgs84") return outside;
  const place = placeOf(found[1], found[2]);
  // Section 3.4.2: at the poles the longitude does not count.
  return Math.abs(place.latitudeDeg) === 90 ? { ...place, longitudeDeg: 0 } : place;
}

/**
 * The place in a link: after an "@", as a pair in its query or path, or behind "mlat" and "mlon", "lat" and "lon". A pin
 * goes before the middle of the view.
 */
function readLink(text: string): Place | null {
  if (!/^https?:\/\//i.test(text)) return null;
  const named = (name: string) => new RegExp(`[?&#](?:${name})=(${figure})(?![\\d.])`, "i").exec(text)?.[1];
  const [lat, lon] = [named("mlat|lat|latitude"), named("mlon|lon|lng|longitude")];
  if (lat !== undefined && lon !== undefined) return placeOf(lat, lon);
  const patterns = [
    `!3d(${figure})!4d(${figure})`,
    `[?&](?:q|ll|query|center|destination|daddr|sll)=(?:loc:)?(${figure})[, ]+(${figure})`,
    `@(${figure}),(${figure})`,
    `#map=\\d+(?:\\.\\d+)?/(${figure})/(${figure})`,
    `/(${figure}),(${figure})(?=[/?#,]|$)`,
  ];
  for (const pattern of patterns) {
    const found = new RegExp(pattern, "i").exec(text);
    if (found !== null) return placeOf(found[1], found[2]);
  }
  return null;
}

/** Degrees, then minutes and seconds, where they are written. */
const angle = "(\\d{1,3}(?:\\.\\d+)?)\\s*[°º]\\s*";
const minutes = "(?:(\\d{1,2}(?:\\.\\d+)?)\\s*['′’]\\s*)?";
const seconds = "(?:(\\d{1,2}(?:\\.\\d+)?)\\s*(?:\"|″|”|''|′′)\\s*)?";

/** 52° 12' 30.5" N, 13° 24.6' E; the letters stand before both or after both. */
function readSexagesimal(text: string): Place | null {
  const isBefore = /^[NSEW]/i.test(text);
  const letter = "([NSEW])\\s*";
  const pattern = `${isBefore ? letter : "()"}${angle}${minutes}${seconds}${isBefore ? "()" : letter}`;
  const [one, two, ...more] = [...text.matchAll(new RegExp(pattern, "gi"))].map(signedAngle);
  if (one === undefined || two === undefined || more.length > 0) return null;
  const [latitude, longitude] = /[NS]/.test(one.letter) ? [one, two] : [two, one];
  if (!/[NS]/.test(latitude.letter) || !/[EW]/.test(longitude.letter)) return null;
  return { latitudeDeg: latitude.deg, longitudeDeg: longitude.deg };
}

function signedAngle([, before = "", degrees, min = "0", sec = "0", after = ""]: RegExpMatchArray) {
  const letter = (before + after).toUpperCase();
  const isTooMuch = Number(min) >= 60 || Number(sec) >= 60;
  const size = Number(degrees) + Number(min) / 60 + Number(sec) / 3600;
  return { letter, deg: isTooMuch ? NaN : /[SW]/.test(letter) ? -size : size };
}

/** 52.2085, 13.4100, with letters or without; decimal commas where a semicolon or a space parts the two. */
function readDecimal(text: string): Place | null {
  const commas = /^(-?\d{1,3},\d+)\s*[;\s]\s*(-?\d{1,3},\d+)$/.exec(text);
  if (commas !== null) return placeOf(commas[1]?.replace(",", "."), commas[2]?.replace(",", "."));
  const found = new RegExp(`^\\(?(${figure})\\s*([NS])?\\s*[,;\\s]\\s*(${figure})\\s*([EW])?\\)?$`, "i").exec(
    text,
  );
  if (found === null) return null;
  const place = placeOf(found[1], found[3]);
  return {
    latitudeDeg: /S/i.test(found[2] ?? "") ? -place.latitudeDeg : place.latitudeDeg,
    longitudeDeg: /W/i.test(found[4] ?? "") ? -place.longitudeDeg : place.longitudeDeg,
  };
}

function placeOf(latitude: string | undefined, longitude: string | undefined): Place {
  return { latitudeDeg: Number(latitude), longitudeDeg: Number(longitude) };
}

/** What no place on earth has, so that nothing else is tried. */
const outside: Place = { latitudeDeg: NaN, longitudeDeg: NaN };

function onEarth(place: Place): Place | null {
  const { latitudeDeg, longitudeDeg } = place;
  return Math.abs(latitudeDeg) <= 90 && Math.abs(longitudeDeg) <= 180 ? place : null;
}
