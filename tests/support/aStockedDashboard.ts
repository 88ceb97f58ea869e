import { fileRead, stockView, type StockView } from "@boothward/shared-types";
import * as z from "zod";
import type { DashboardApi } from "../../seeds/dashboardApi.ts";
import { addBooth, aDashboard, anOwner } from "./aDashboard.ts";
import { aHandClock } from "./aHandClock.ts";

let keys = 0;
/** A key that no other line of these tests has. */
export const once = () => ({ onceKey: `key-${(keys += 1)}` });
export const moved = z.object({ moveId: z.string() });
export const made = z.object({ orderId: z.string() });

export const see = (api: DashboardApi): Promise<StockView> =>
  api.get(
    "/api/stock",
    z.custom<StockView>((answer) => stockView.parse(answer)),
  );
export const look = (api: DashboardApi, path: string, body: object) =>
  api.post(
    path,
    body,
    z.custom<z.infer<typeof fileRead>>((answer) => fileRead.safeParse(answer).success),
  );

export const buy = (api: DashboardApi, rolls: number) =>
  api.post(
    "/api/stock/moves",
    { ...once(), fromPlace: "supplier", toPlace: "store", rolls, why: "bought" },
    moved,
  );

export const fullAt = (view: StockView, place: string) =>
  view.places.find((each) => each.place === place)?.fullRolls ?? 0;

export async function aStockedDashboard() {
  const clock = aHandClock(Date.UTC(2026, 4, 4, 12));
  const dashboard = await aDashboard({ clock: clock.clock });
  const api = await anOwner(dashboard);
  const boothId = await addBooth(api);
  await buy(api, 20);
  return { dashboard, api, boothId, clock };
}

/** The answer as text, as a browser that keeps a file gets it. */
export async function download(api: DashboardApi, path: string) {
  const response = await fetch(new URL(path, api.origin), { headers: { cookie: api.cookie() } });
  return { headers: response.headers, text: await response.text() };
}
