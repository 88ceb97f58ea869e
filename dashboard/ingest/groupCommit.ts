/**
 * Gathers what is asked for in one turn of the event loop and has it done together.
 *
 * `commit` is given everything that came in since the last turn and answers in the same order; the
 * promise of each resolves once the whole group is committed. When a group fails, each of it is tried
 * once alone, so that one that cannot be stored takes no other with it; its own promise rejects.
 */
export function groupCommit<Batch, Outcome>(
  commit: (batches: readonly Batch[]) => Promise<readonly Outcome[]>,
): { readonly add: (batch: Batch) => Promise<Outcome>; readonly idle: () => Promise<void> } {
  type Waiting = { batch: Batch; resolve: (outcome: Outcome) => void; reject: (error: unknown) => void };
  let waiting: Waiting[] = [];
  let running: Promise<void> | null = null;

  async function run(): Promise<void> {
    while (waiting.length > 0) {
      // A turn of the event loop reads what has come meanwhile: the larger the group, the fewer the disk's waits.
      await new Promise((resolve) => setImmediate(resolve));
      const group = waiting;
      waiting = [];
      await settle(group);
    }
    running = null;
  }

  async function settle(group: readonly Waiting[]): Promise<void> {
    try {
      const outcomes = await commit(group.map(({ batch }) => batch));
      group.forEach(({ resolve }, index) => resolve(outcomes[index] as Outcome));
    } catch (error) {
      if (group.length > 1) for (const one of group) await settle([one]);
      else group[0]?.reject(error);
    }
  }

  return {
    add: (batch) =>
      new Promise((resolve, reject) => {
        waiting.push({ batch, resolve, reject });
        running ??= run();
      }),
    async idle() {
      await running;
    },
  };
}
