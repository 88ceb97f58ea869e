import type { IppAttribute, IppGroup, IppMessage, IppValue } from "./ippMessage.ts";

/** The groups of one kind, in their order. */
export function groupsOf(message: IppMessage, tag: number): readonly IppGroup[] {
  return message.groups.filter((group) => group.tag === tag);
}

/** All values of the first attribute of this name; empty where there is none. */
export function valuesOf(group: IppGroup | undefined, name: string): readonly IppValue[] {
  return group?.attributes.find((attribute) => attribute.name === name)?.values ?? [];
}

/** Whole numbers and enums under this name; null for a value that is neither. */
export function intsOf(group: IppGroup | undefined, name: string): readonly (number | null)[] {
  return valuesOf(group, name).map((value) => ("int" in value ? value.int : null));
}

export function intOf(group: IppGroup | undefined, name: string): number | null {
  return intsOf(group, name)[0] ?? null;
}

/** Texts, names, keywords and addresses under this name, with or without a language. */
export function textsOf(group: IppGroup | undefined, name: string): readonly string[] {
  return valuesOf(group, name).flatMap((value) => ("text" in value ? [value.text] : []));
}

export function textOf(group: IppGroup | undefined, name: string): string | null {
  return textsOf(group, name)[0] ?? null;
}

/** Strings of octets under this name, read as UTF-8. */
export function octetTextsOf(group: IppGroup | undefined, name: string): readonly string[] {
  return valuesOf(group, name).flatMap((value) =>
    value.syntax === "octetString" ? [Buffer.from(value.bytes).toString("utf8")] : [],
  );
}

/** Attributes of requests. */
export function keywords(name: string, ...words: readonly string[]): IppAttribute {
  return { name, values: words.map((text) => ({ syntax: "keyword", text })) };
}

export function integer(name: string, int: number): IppAttribute {
  return { name, values: [{ syntax: "integer", int }] };
}

export function uri(name: string, text: string): IppAttribute {
  return { name, values: [{ syntax: "uri", text }] };
}

export function boolean(name: string, bool: boolean): IppAttribute {
  return { name, values: [{ syntax: "boolean", bool }] };
}
