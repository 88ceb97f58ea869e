/**
 * An IPP request or reply as data. Values are always lists; an attribute may come twice in one group.
 *
 * **Source:** RFC 8010 section 3 (encoding), RFC 8011 section 5.1 (attribute syntaxes).
 */
export type IppMessage = {
  readonly version: { readonly major: number; readonly minor: number };
  /** Operation id of a request, status code of a reply. */
  readonly code: number;
  readonly requestId: number;
  readonly groups: readonly IppGroup[];
  /** What follows the attributes: a document, or nothing. */
  readonly data: Uint8Array;
};

export type IppGroup = { readonly tag: number; readonly attributes: readonly IppAttribute[] };
export type IppAttribute = { readonly name: string; readonly values: readonly IppValue[] };

export type IppValue =
  | { readonly syntax: "outOfBand"; readonly tag: number }
  | { readonly syntax: "integer" | "enum"; readonly int: number }
  | { readonly syntax: "boolean"; readonly bool: boolean }
  | { readonly syntax: TextSyntax; readonly text: string }
  | { readonly syntax: LanguageSyntax; readonly text: string; readonly language: string }
  | { readonly syntax: "octetString"; readonly bytes: Uint8Array }
  | { readonly syntax: "dateTime"; readonly atMs: number; readonly zoneMinutes: number }
  | { readonly syntax: "resolution"; readonly cross: number; readonly feed: number; readonly units: number }
  | { readonly syntax: "rangeOfInteger"; readonly lower: number; readonly upper: number }
  | { readonly syntax: "collection"; readonly members: readonly IppAttribute[] }
  /** A syntax this codec does not know, or bytes that do not fit their syntax: kept as they came. */
  | { readonly syntax: "other"; readonly tag: number; readonly bytes: Uint8Array };

export type TextSyntax = (typeof textTags)[keyof typeof textTags];
export type LanguageSyntax = (typeof languageTags)[keyof typeof languageTags];

/** Delimiter tags, RFC 8010 section 3.5.1; the event group is RFC 3996 section 5. */
export const groupTags = {
  operation: 0x01,
  job: 0x02,
  end: 0x03,
  printer: 0x04,
  unsupported: 0x05,
  subscription: 0x06,
  eventNotification: 0x07,
} as const;

/** Below this a tag begins a group or ends the attributes; from it on it begins a value. */
export const firstValueTag = 0x10;

/** Value tags, RFC 8010 section 3.5.2. */
export const valueTags = {
  unsupported: 0x10,
  lastOutOfBand: 0x1f,
  integer: 0x21,
  boolean: 0x22,
  enum: 0x23,
  octetString: 0x30,
  dateTime: 0x31,
  resolution: 0x32,
  rangeOfInteger: 0x33,
  begCollection: 0x34,
  endCollection: 0x37,
  memberAttrName: 0x4a,
} as const;

export const textTags = {
  0x41: "text",
  0x42: "name",
  0x44: "keyword",
  0x45: "uri",
  0x46: "uriScheme",
  0x47: "charset",
  0x48: "naturalLanguage",
  0x49: "mimeMediaType",
} as const;

export const languageTags = { 0x35: "textWithLanguage", 0x36: "nameWithLanguage" } as const;

/** Longest name or value: the lengths are signed 16-bit numbers, RFC 8010 section 3.1.3. */
export const longestField = 0x7fff;

/** Collections within collections; real printers use three. */
export const deepestCollection = 16;
