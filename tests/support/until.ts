/**
 * Waits until `isSo` is true (a throw counts as "not yet"), looking every 20 ms; fails by name after `withinMs`.
 * The limit is there to end a hopeless wait, it is no measurement.
 */
export async function until(
  isSo: () => boolean | Promise<boolean>,
  what: string,
  withinMs = 15_000,
): Promise<void> {
  const from = performance.now();
  let last: unknown = null;
  for (;;) {
    try {
      if (await isSo()) return;
    } catch (error) {
      last = error;
    }
    if (performance.now() - from > withinMs) {
      throw new Error(`not within ${withinMs} ms: ${what}`, { cause: last });
    }
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
}
