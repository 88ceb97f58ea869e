/** The values of a submitted form; the browser's own submit is held back. */
export function readForm(event: SubmitEvent) {
  event.preventDefault();
  const data =
    event.currentTarget instanceof HTMLFormElement ? new FormData(event.currentTarget) : new FormData();
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
