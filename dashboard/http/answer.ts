import type { HttpError } from "@boothward/shared-types";
import type { ZodError } from "zod";
import type { core } from "zod/mini";

/** What a route answers. `cookie`: a new sign-in's token, or the end of one. */
export type Answer = {
  readonly status: number;
  readonly body: unknown;
  readonly cookie?: { readonly token: string; readonly forMs: number } | "cleared";
  readonly file?: AnswerFile;
};

/** A file, sent in the place of a body. */
type AnswerFile = {
  readonly bytes: Buffer | string;
  readonly type: string;
  /** null: it is shown where it is asked for, not saved. */
  readonly name: string | null;
};

/** How the HTTP side says no. */
export function no(status: number, error: string, sentence: string, field: string | null = null): Answer {
  const body: HttpError = { error, sentence, field };
  return { status, body };
}

export const notSignedIn = no(401, "notSignedIn", "Please sign in first.");
export const notYours = no(403, "notYours", "This is for the owner of the business.");
export const noSuchBooth = no(404, "noSuchBooth", "There is no such booth on this dashboard.");

type Schema<T> = {
  safeParse(input: unknown): { success: true; data: T } | { success: false; error: Issues };
};
type Issues = Pick<ZodError | core.$ZodError, "issues">;

/** Fields whose value is never repeated, in an answer or in a log. */
const secretFields: ReadonlySet<string> = new Set(["password", "code", "token"]);

/** Longest value that is repeated to say which one was wrong. */
const mostRepeatedChars = 60;

/** Reads a request's body: its value, or an answer that names the field and what stood in it. */
export function readBody<T>(schema: Schema<T>, body: unknown): { value: T } | { refusal: Answer } {
  const read = schema.safeParse(body ?? {});
  if (read.success) return { value: read.data };
  const issue = read.error.issues[0];
  const field = fieldOf(issue?.path ?? []);
  if (issue === undefined || field === "")
    return { refusal: no(400, "wrongBody", "The request is not what this address expects.") };
  const reason = issue.message.charAt(0).toLowerCase() + issue.message.slice(1);
  return { refusal: no(400, "wrongField", `${field}: ${reason}${repeated(body, field)}.`, field) };
}

/** `box.openings[0].widthM`: as code writes it. */
function fieldOf(path: readonly PropertyKey[]): string {
  return path.reduce<string>(
    (field, key) =>
      typeof key === "number" ? `${field}[${key}]` : field === "" ? String(key) : `${field}.${String(key)}`,
    "",
  );
}

function repeated(body: unknown, field: string): string {
  if (secretFields.has(field) || typeof body !== "object" || body === null) return "";
  const value: unknown = Reflect.get(body, field);
  return value === undefined ? "" : ` (it is ${JSON.stringify(value).slice(0, mostRepeatedChars)})`;
}
