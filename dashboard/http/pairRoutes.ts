import { pairingRequest, type PairingAnswer } from "@boothward/shared-types";
import { dashboardName } from "../store/boothItems.ts";
import type { CodeRefusal } from "../store/oneTimeCodes.ts";
import { secretHash } from "../store/secretHash.ts";
import { no, noSuchBooth, readBody, type Answer } from "./answer.ts";
import { makePairingCode, spacedCode, typedCode } from "./pairingCode.ts";
import { openRoute, ownerRoute, type Asked, type Route } from "./route.ts";
import type { HttpSurroundings } from "./surroundings.ts";

/** From reading the code on the phone to typing it at the booth. */
const pairingCodeMs = 15 * 60_000;

const refusals: Record<CodeRefusal, [status: number, sentence: string]> = {
  wrongCode: [403, "This pairing code is not known. Compare it with the one under Set-up."],
  usedCode: [410, "This pairing code was used already; it works once. Make a new one under Set-up."],
  expiredCode: [410, "This pairing code is more than 15 minutes old. Make a new one under Set-up."],
};

/** How a booth's agent is let in, and put out. */
export function pairRoutes(with_: HttpSurroundings): Route[] {
  const { store, gate, log, randomBytes } = with_;

  async function pair({ body, atMs }: Asked): Promise<Answer> {
    const read = readBody(pairingRequest, body);
    if ("refusal" in read) return read.refusal;
    const { code, agentId, hostName } = read.value;
    if (agentId === dashboardName)
      return no(400, "wrongField", `agentId: ${agentId} is the dashboard's own name.`, "agentId");
    const token = randomBytes(32).toString("base64url");
    const asked = { codeHash: secretHash(typedCode(code)), atMs };
    const agent = { agentId, hostName, tokenHash: secretHash(token), pairedAtMs: atMs };
    const used = await store.oneTimeCodes.useForPairing(asked, agent);
    if ("refused" in used) {
      log.warn({ agentId, hostName, refused: used.refused }, "pairing refused");
      const [status, sentence] = refusals[used.refused];
      return no(status, used.refused, sentence, "code");
    }
    const { boothId, name } = used.booth;
    gate.paired({ agentId, boothId });
    log.info({ agentId, hostName, boothId }, "agent paired");
    return { status: 200, body: { token, boothId, boothName: name } satisfies PairingAnswer };
  }

  return [
    openRoute("post", "/api/pair", true, pair),
    ownerRoute("post", "/api/booths/:boothId/pairing-codes", "pairAgents", async ({ params, atMs }) => {
      const booth = await store.booths.byId(params["boothId"] ?? "");
      if (booth === null) return noSuchBooth;
      const code = makePairingCode(randomBytes);
      const expiresAtMs = atMs + pairingCodeMs;
      await store.oneTimeCodes.add({
        ...{ codeHash: secretHash(code), purpose: "pairing", accountId: null },
        ...{ boothId: booth.boothId, createdAtMs: atMs, expiresAtMs },
      });
      return { status: 201, body: { code: spacedCode(code), expiresAtMs } };
    }),
    ownerRoute("post", "/api/agents/:agentId/revoke", "pairAgents", async ({ params, atMs }) => {
      const agentId = params["agentId"] ?? "";
      if (!(await store.agents.revoke(agentId, atMs)))
        return no(404, "noSuchAgent", "There is no such agent, or it was revoked already.");
      gate.revoked(agentId);
      log.info({ agentId }, "agent revoked");
      return { status: 200, body: {} };
    }),
  ];
}
