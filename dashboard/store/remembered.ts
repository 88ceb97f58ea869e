/**
 * Reads texts that come again and again once each, at most so many before it begins anew. The same text gives the same
 * value, which nobody may change.
 */
export function remembered<T>(read: (text: string) => T, most: number) {
  const known = new Map<string, T>();
  return {
    has: (text: string): boolean => known.has(text),
    of(text: string): T {
      const found = known.get(text);
      if (found !== undefined) return found;
      if (known.size >= most) known.clear();
      const value = read(text);
      known.set(text, value);
      return value;
    },
  };
}
