import { randomBytes } from "node:crypto";
import { join } from "node:path";
import type { Crew } from "./crew.ts";
import { openApi } from "./dashboardApi.ts";
import type { Day } from "./day.ts";
import {
  addressOf,
  type AgentPlace,
  firstRunCode,
  layOutAgent,
  pairAgent,
  startAgent,
  startDashboard,
} from "./programs.ts";
import { openPhone } from "./openPhone.ts";
import { makeBooths, makeOwner, makeSignInLink, type Owner } from "./setUpDay.ts";
import { nowOffsetMs, simulate } from "./simulate.ts";
import type { Running } from "./startProcess.ts";
import { venueAt } from "./zone.ts";

export type DemoOptions = {
  /** The project's folder, where the bundles are. */
  readonly top: string;
  /** Everything the demo writes lies here. */
  readonly folder: string;
  readonly port: number;
  readonly seed: number;
  readonly day: Day;
};

/** A demo that plays. */
export type Demo = {
  readonly origin: string;
  /** Signs one browser in, once. */
  readonly signInUrl: string;
  readonly owner: Owner;
};

type OnDeath = (running: Running, how: string) => void;

/**
 * Starts a real dashboard and one real agent for each booth of the day, and sets them up as a person would:
 * first run, booths, bookings, pairing. What lies before now goes out as backlog over the real link.
 */
export async function startDemo(
  options: DemoOptions,
  crew: Crew,
  nowMs: () => number,
  onDeath: OnDeath,
): Promise<Demo> {
  const { top, folder, port, day, seed } = options;
  const place = { top, dataFolder: join(folder, "dashboard"), port };
  const dashboard = crew.add(() => startDashboard(place), onDeath);
  const origin = await addressOf(dashboard);
  const api = openApi(origin);
  const owner = { name: "Ida Fennimore", password: randomBytes(9).toString("base64url") };
  await makeOwner(api, await firstRunCode(dashboard), owner);
  const startMs = nowMs();
  const made = await makeBooths(api, day, venueAt(startMs), startMs);
  await Promise.all(
    made.map(async ({ booth, bookingId, pairingCode }) => {
      const agent: AgentPlace = { top, name: booth.name, folder: join(folder, booth.name) };
      layOutAgent(agent, origin, simulate(booth, day, seed), startMs - nowOffsetMs(day));
      await pairAgent(agent, pairingCode, (start) => crew.add(start, () => undefined));
      crew.add(() => startAgent(agent), onDeath);
      if (booth.booking.attendant !== null) await openPhone(api, booth.booking.attendant, bookingId);
    }),
  );
  return { origin, signInUrl: origin + (await makeSignInLink(api)), owner };
}
