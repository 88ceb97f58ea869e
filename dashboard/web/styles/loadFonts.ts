import plainUrl from "@fontsource/inter/files/inter-latin-400-normal.woff2?url";
import plainBoldUrl from "@fontsource/inter/files/inter-latin-600-normal.woff2?url";
import voiceUrl from "@fontsource/vollkorn/files/vollkorn-latin-600-normal.woff2?url";

/** Fetches the faces after the first view, the serif of the verdict first; until then the system's stand in. */
export async function loadFonts(document: Document): Promise<void> {
  const faces = [
    new FontFace("Boothward Text", `url(${voiceUrl})`, { weight: "600", display: "swap" }),
    new FontFace("Boothward Plain", `url(${plainUrl})`, { weight: "400", display: "swap" }),
    new FontFace("Boothward Plain", `url(${plainBoldUrl})`, { weight: "600", display: "swap" }),
  ];
  for (const face of faces) {
    const loaded = await face.load().catch(() => null);
    if (loaded !== null) document.fonts.add(loaded);
  }
}
