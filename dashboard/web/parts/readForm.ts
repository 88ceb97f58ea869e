/** The values of a submitted form; the browser's own submit is held back. */
export function readForm(event: SubmitEvent) {
  event.preventDefault();
  return readFields(event.currentTarget instanceof HTMLFormElement ? event.currentTarget : null);
}

export type Written = ReturnType<typeof readFields>;

/** What stands in the fields of a form now. */
export function readFields(form: HTMLFormElement | null) {
  const data = form === null ? new FormData() : new FormData(form);
  const text = (name: string): string => {
    const value = data.get(name);
    return typeof value === "string" ? value.trim() : "";
  };
  return {
    text,
    has: (name: string) => data.has(name),
    /** null for an empty field; what is no number is sent as it is, for the dashboard to refuse by name. */
    number: (name: string): number | string | null => {
      const written = text(name).replace(",", ".");
      if (written === "") return null;
      return Number.isNaN(Number(written)) ? written : Number(written);
    },
    /** null for an empty field. */
    textOrNull: (name: string): string | null => (text(name) === "" ? null : text(name)),
  };
}
