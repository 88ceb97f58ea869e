import type { HostReading } from "./hostChanges.ts";
import { isLargeChange, powerChanged } from "./hostChanges.ts";
import { pollingSource } from "../readings/pollingSource.ts";
import type { Source, SourceItem } from "../readings/source.ts";
import type { HostSensors } from "./hostSensors.ts";
import { hostSensors } from "./hostSensors.ts";
import type { HostSourceConfig } from "./hostSourceConfig.ts";
import type { PowerSeen } from "./powerSupplies.ts";
import type { Surroundings } from "./surroundings.ts";

/** Without a large change the computer's state is told this often. */
const tellEveryMs = 60_000;

/**
 * This computer's own state: `host` readings once a minute and on a large change, and a `power` fact when it
 * goes from mains to battery or back. A computer that does not say what feeds it makes no `power` fact.
 */
export function hostSource(
  config: HostSourceConfig,
  { clock, stateFolder }: Surroundings,
  sensors: HostSensors = hostSensors(process.platform, stateFolder),
): Source {
  let told: HostReading | null = null;
  let toldAtMonoMs = -Infinity;
  let toldPower: PowerSeen | null = null;
  let commit: () => void = () => undefined;
  const diskFreeMb = everyNow(config.diskEveryMs, () => sensors.diskFreeMb());
  const powerNow = everyNow(config.powerEveryMs, () => sensors.power());
  const stateNow = everyNow(config.everyMs, () => look());

  async function look(): Promise<Omit<HostReading, "batteryPct">> {
    return {
      class: "reading",
      kind: "host",
      memoryUsedPct: await sensors.memoryUsedPct().catch(() => null),
      loadPct: sensors.loadPct(),
      processorC: await sensors.processorC().catch(() => null),
      diskFreeMb: await diskFreeMb(clock().monoMs),
      networkUp: sensors.networkUp(),
    };
  }

  return pollingSource({
    name: config.name,
    everyMs: Math.min(config.everyMs, config.powerEveryMs),
    async read() {
      const { monoMs } = clock();
      const power = await powerNow(monoMs);
      const state = await stateNow(monoMs);
      const seen = state && { ...state, batteryPct: power?.batteryPct ?? null };
      const isHostDue = seen !== null && (monoMs - toldAtMonoMs >= tellEveryMs || isLargeChange(told, seen));
      const isPowerDue = power !== null && powerChanged(toldPower, power);
      commit = () => {
        if (isHostDue) [told, toldAtMonoMs] = [seen, monoMs];
        if (isPowerDue) toldPower = power;
      };
      const items: SourceItem[] = [
        ...(isPowerDue ? [{ item: { class: "fact", kind: "power", ...power } } as const] : []),
        ...(isHostDue ? [{ item: seen }] : []),
      ];
      return { items };
    },
    kept() {
      commit();
      return Promise.resolve();
    },
    close() {
      sensors.close();
      return Promise.resolve();
    },
  });
}

/** A timer that comes a little early must not cost a whole round. */
const timerSlack = 0.9;

/** Asks at most once in `everyMs` and gives the last answer in between; null where asking fails. */
function everyNow<Answer>(
  everyMs: number,
  ask: () => Promise<Answer | null>,
): (monoMs: number) => Promise<Answer | null> {
  let last: Answer | null = null;
  let askedAtMonoMs = -Infinity;
  return async (monoMs) => {
    if (monoMs - askedAtMonoMs < everyMs * timerSlack) return last;
    askedAtMonoMs = monoMs;
    last = await ask().catch(() => null);
    return last;
  };
}
