import { WebSocket } from "ws";
import * as z from "zod";
import { anyAnswer, openApi, type DashboardApi } from "./dashboardApi.ts";

const madePass = z.object({ path: z.string().includes("#pass=") });

/**
 * An attendant's phone with its page open, as far as the dashboard can tell: let in by a pass for the booking, it
 * keeps the live socket until the dashboard ends.
 */
export async function openPhone(owner: DashboardApi, name: string, bookingId: string): Promise<void> {
  const { path } = await owner.post("/api/passes", { name, bookingIds: [bookingId] }, madePass);
  const phone = openApi(owner.origin);
  await phone.post("/api/join", { token: path.split("#pass=")[1] }, anyAnswer);
  const headers = { cookie: phone.cookie(), origin: owner.origin };
  const socket = new WebSocket(`${owner.origin.replace("http", "ws")}/live`, { headers });
  // The demo ends with its dashboard, and what is said to the phone is of no use to it.
  socket.on("error", () => undefined);
}
