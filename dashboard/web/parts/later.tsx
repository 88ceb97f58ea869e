import { signal } from "@preact/signals";
import type { ComponentType } from "preact";
import { useEffect } from "preact/hooks";

/**
 * A component whose file is fetched when it is first shown. Until then, and when the file cannot be had,
 * `Waiting` stands in its place.
 */
export function later<P extends object>(
  load: () => Promise<ComponentType<P>>,
  Waiting: ComponentType<{ hasFailed: boolean }>,
): ComponentType<P> {
  const loaded = signal<{ part: ComponentType<P> } | null>(null);
  const hasFailed = signal(false);
  return function Later(props: P) {
    useEffect(() => {
      if (loaded.value !== null) return;
      load().then(
        (part) => (loaded.value = { part }),
        () => (hasFailed.value = true),
      );
    }, []);
    const Part = loaded.value?.part;
    return Part === undefined ? <Waiting hasFailed={hasFailed.value} /> : <Part {...props} />;
  };
}
