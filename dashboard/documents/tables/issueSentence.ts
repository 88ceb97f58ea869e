/** What a check found wrong, as zod tells it. */
type Issue = { readonly path: readonly PropertyKey[]; readonly message: string };

/** Longest value that is repeated to say which one was wrong. */
const mostRepeatedChars = 60;

/** A sentence on what is wrong with what a file says, and what it says there. `input` is what was checked. */
export function issueSentence(issue: Issue | undefined, input: unknown): string {
  if (issue === undefined) return "cannot be read";
  const sentence = issue.message.charAt(0).toLowerCase() + issue.message.slice(1);
  const said = issue.path.reduce<unknown>(
    (within, key) => (typeof within === "object" && within !== null ? Reflect.get(within, key) : undefined),
    input,
  );
  const isTold = typeof said === "string" || typeof said === "number";
  return isTold && said !== "" ? `${sentence} (it is ${String(said).slice(0, mostRepeatedChars)})` : sentence;
}
