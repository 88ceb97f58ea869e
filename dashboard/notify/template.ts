import type { HttpBody } from "@boothward/shared-types";

/** What a template may ask for. */
export type TemplateFields = Readonly<Record<"text" | "booth" | "severity" | "link" | "id", string>>;

const fields: readonly (keyof TemplateFields)[] = ["text", "booth", "severity", "link", "id"];
const placeholder = /\{([A-Za-z]+)\}/g;

/** Headers that the connection itself needs right. */
const ownHeaders =
  /^(host|connection|content-length|transfer-encoding|upgrade|expect|te|trailer|keep-alive)$/i;

const sample: TemplateFields = {
  ...{ text: 'A "test" of the line', booth: "Juniper", severity: "note" },
  ...{ link: "https://booths.example/", id: "1" },
};

export type FilledTemplate = {
  readonly url: string;
  readonly headers: Readonly<Record<string, string>>;
  readonly body: string | null;
};

/** Puts a notice into a template, each field escaped for where it stands. */
export function fillTemplate(template: HttpBody, values: TemplateFields): FilledTemplate {
  const headers = template.headers.map(({ name, content }) => [name, fill(content, values, forHeader)]);
  return {
    url: fill(template.url, values, encodeURIComponent),
    headers: Object.fromEntries([["content-type", contentTypes[template.form]], ...headers]) as Record<
      string,
      string
    >,
    body: template.method === "GET" ? null : fill(template.template, values, escapes[template.form]),
  };
}

/** What about a template cannot work: the field of the form, and a sentence; null: nothing. */
export function whyNotTemplate(template: HttpBody): { field: string; sentence: string } | null {
  const parts = [
    ["url", template.url],
    ...template.headers.map(({ content }, at) => [`headers[${at}].content`, content]),
    ["template", template.template],
  ] as const;
  for (const [field = "", text = ""] of parts)
    for (const [whole, name = ""] of text.matchAll(placeholder))
      if (!isField(name)) return { field, sentence: `${field}: there is no ${whole}. There are ${listed}.` };
  const used = parts.some(
    ([field, text = ""]) => (field !== "template" || template.method !== "GET") && text.includes("{text}"),
  );
  if (!used)
    return { field: "template", sentence: "template: {text} is missing; without it nothing would be said." };
  return whyNotFilled(template);
}

function whyNotFilled(template: HttpBody): { field: string; sentence: string } | null {
  const at = template.headers.findIndex(({ name }) => ownHeaders.test(name));
  if (at >= 0)
    return {
      field: `headers[${at}].name`,
      sentence: `headers[${at}].name: ${template.headers[at]?.name ?? ""} cannot be set.`,
    };
  const { url, body } = fillTemplate(template, sample);
  if (!URL.canParse(url) || !/^https?:$/.test(new URL(url).protocol))
    return {
      field: "url",
      sentence: `url: ${template.url.slice(0, 60)} is no address that begins with https:// or http://.`,
    };
  if (new URL(url).host !== hostOfPattern(template.url))
    return { field: "url", sentence: "url: the host must be written out, without a field in it." };
  if (template.form === "json" && body !== null && !isJson(body))
    return { field: "template", sentence: 'template: this is not JSON. Fields stand in quotes: "{text}".' };
  return null;
}

const listed = fields.map((field) => `{${field}}`).join(", ");

const contentTypes: Record<HttpBody["form"], string> = {
  json: "application/json",
  form: "application/x-www-form-urlencoded",
  text: "text/plain; charset=utf-8",
};

const escapes: Record<HttpBody["form"], (value: string) => string> = {
  json: (value) => JSON.stringify(value).slice(1, -1),
  form: encodeURIComponent,
  text: (value) => value,
};

/** RFC 9110 section 5.5: visible ASCII and spaces; what else a sentence holds has no place in a header. */
function forHeader(value: string): string {
  return value.replace(/[^\x20-\x7e]+/g, "?");
}

function isField(name: string): name is keyof TemplateFields {
  return (fields as readonly string[]).includes(name);
}

function fill(text: string, values: TemplateFields, escape: (value: string) => string): string {
  return text.replace(placeholder, (whole, name: string) => (isField(name) ? escape(values[name]) : whole));
}

/** The host as it is written, where no field stands in it. */
function hostOfPattern(url: string): string | null {
  const [, host = null] = /^https?:\/\/(?:[^/?#@{}]*@)?([^/?#{}]+)(?:[/?#]|$)/i.exec(url) ?? [];
  return host === null || !URL.canParse(`http://${host}`)
    ? null
    : new URL(url.replace(placeholder, "x")).host;
}

function isJson(text: string): boolean {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
}
