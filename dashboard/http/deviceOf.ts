/** What browsers call themselves, those that also name others first. */
const browsers: readonly (readonly [RegExp, string])[] = [
  [/\bEdg(A|iOS)?\//, "Edge"],
  [/\bFirefox\/|\bFxiOS\//, "Firefox"],
  [/\bChrome\/|\bCriOS\//, "Chrome"],
  [/\bSafari\//, "Safari"],
];
const systems: readonly (readonly [RegExp, string])[] = [
  [/\biPhone\b/, "iPhone"],
  [/\biPad\b/, "iPad"],
  [/\bAndroid\b/, "Android"],
  [/\bWindows\b/, "Windows"],
  [/\bMac OS X\b/, "Mac"],
  [/\bLinux\b/, "Linux"],
];

/** What a person holds, from its User-Agent header (RFC 9110 section 10.1.5): "Firefox on Android". */
export function deviceOf(userAgent: string | undefined): string {
  const nameIn = (list: typeof browsers) => list.find(([sign]) => sign.test(userAgent ?? ""))?.[1];
  const browser = nameIn(browsers);
  const system = nameIn(systems);
  if (browser === undefined && system === undefined) return "a device";
  return `${browser ?? "a browser"}${system === undefined ? "" : ` on ${system}`}`;
}
