/** What a browser keeps for a page, in memory. */
export function aStorage(
  start: Record<string, string> = {},
): Pick<Storage, "getItem" | "setItem" | "removeItem"> {
  const kept = new Map(Object.entries(start));
  return {
    getItem: (name) => kept.get(name) ?? null,
    setItem: (name, text) => void kept.set(name, text),
    removeItem: (name) => void kept.delete(name),
  };
}
