import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readPosition } from "../../../dashboard/planning/readPosition.ts";

const at = (latitudeDeg: number, longitudeDeg: number) => ({ latitudeDeg, longitudeDeg });

describe("a position from what somebody pasted", () => {
  // Source: RFC 5870 sections 1, 6.1, 6.2 and 6.3.
  it.each([
    ["geo:13.4125,103.8667", at(13.4125, 103.8667)],
    ["geo:48.2010,16.3695,183", at(48.201, 16.3695)],
    ["geo:48.198634,16.371648;crs=wgs84;u=40", at(48.198634, 16.371648)],
    ["geo:66,30;u=6.500;FOo=this%2dthat", at(66, 30)],
    ["geo:66.0,30;u=6.5;foo=this-that", at(66, 30)],
    ["GEO:-48.876667,-123.393333", at(-48.876667, -123.393333)],
    // Section 3.4.2: all longitudes are one at a pole.
    ["geo:90,-22.43;crs=WGS84", at(90, 0)],
    ["geo:90,46", at(90, 0)],
  ])("reads %s", (text, place) => expect(readPosition(text)).toEqual(place));

  it("reads no other coordinate system and nothing beyond the earth", () => {
    // RFC 5870 section 4.1 leaves other systems to other specifications.
    for (const text of [
      "geo:323482,4306480;crs=EPSG:32618;u=20",
      "geo:1,2;crs=moon-2011",
      "geo:91,0",
      "90.5, 10",
    ])
      expect(readPosition(text)).toBeNull();
  });

  it.each([
    ["52.2085, 13.41", at(52.2085, 13.41)],
    ["(52.2085, 13.41)", at(52.2085, 13.41)],
    ["-33.8568 151.2153", at(-33.8568, 151.2153)],
    ["33.8568 S, 151.2153 E", at(-33.8568, 151.2153)],
    ["−12.5; −70", at(-12.5, -70)],
    ["52,2085; 13,4100", at(52.2085, 13.41)],
    ["0, 0", at(0, 0)],
  ])("reads the two figures %s", (text, place) => expect(readPosition(text)).toEqual(place));

  // ISO 6709 annex D: degrees, minutes and seconds with their hemisphere.
  it.each([
    [`50°40'46.461"N 95°48'26.533"W`, 50 + 40 / 60 + 46.461 / 3600, -(95 + 48 / 60 + 26.533 / 3600)],
    ["N 52° 12.51' E 13° 24.6'", 52 + 12.51 / 60, 13 + 24.6 / 60],
    ["52° 12′ 30″ S, 13° 24′ 36″ E", -(52 + 12.5 / 60), 13 + 24.6 / 60],
    ["13.5° W 52.25° N", 52.25, -13.5],
  ])("reads %s", (text, latitudeDeg, longitudeDeg) => {
    const place = readPosition(text);
    expect(place?.latitudeDeg).toBeCloseTo(latitudeDeg, 9);
    expect(place?.longitudeDeg).toBeCloseTo(longitudeDeg, 9);
  });

  it.each([
    ["https://map.example/#map=17/52.20850/13.41000", at(52.2085, 13.41)],
    ["https://map.example/?mlat=52.2085&mlon=13.41#map=5/1/2", at(52.2085, 13.41)],
    ["https://map.example/place/Barn/@52.2000,13.4000,17z/data=!3d52.2085!4d13.41", at(52.2085, 13.41)],
    ["https://map.example/?q=52.2085%2C13.41&z=15", at(52.2085, 13.41)],
    ["https://map.example/?ll=52.2085,13.41&q=Barn", at(52.2085, 13.41)],
    ["https://map.example/dir/52.2085,13.41/", at(52.2085, 13.41)],
    ["https://map.example/?lat=-1.5&lon=36.9", at(-1.5, 36.9)],
  ])("reads the link %s", (text, place) => expect(readPosition(text)).toEqual(place));

  it.each([
    "",
    "the old barn",
    "12",
    "1, 2, 3",
    "https://map.example/barn",
    "geo:",
    "100, 200",
    "52° 70' N 13° E",
    "%",
  ])("finds none in %j", (text) => expect(readPosition(text)).toBeNull());

  it("reads back every place as people and addresses write it", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -900_000, max: 900_000 }),
        fc.integer({ min: -1_800_000, max: 1_800_000 }),
        (latitude, longitude) => {
          const [lat, lon] = [latitude / 10_000, longitude / 10_000];
          const [read, geo] = [readPosition(`${lat}, ${lon}`), readPosition(`geo:${lat},${lon}`)];
          expect(read).toEqual(at(lat, lon));
          expect(geo).toEqual(Math.abs(lat) === 90 ? at(lat, 0) : at(lat, lon));
        },
      ),
    );
  });

  it("never fails, and never leaves the earth, whatever was pasted", () => {
    fc.assert(
      fc.property(fc.string({ unit: "grapheme", maxLength: 80 }), (text) => {
        const place = readPosition(text);
        return place === null || (Math.abs(place.latitudeDeg) <= 90 && Math.abs(place.longitudeDeg) <= 180);
      }),
    );
  });
});
