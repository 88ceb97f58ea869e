import {
  emailBody,
  httpBody,
  pushBody,
  reachForm,
  webhookBody,
  type ReachForm,
  type ReachView,
} from "@boothward/shared-types";
import { whyNotTemplate } from "../notify/template.ts";
import { webhookSecret } from "../notify/webhookChannel.ts";
import type { Reach } from "../store/reaches.ts";
import { no, readBody, type Answer } from "./answer.ts";
import { personIdOf, type Signed } from "./roles.ts";
import { signedRoute, type Asked, type Route } from "./route.ts";
import type { HttpSurroundings } from "./surroundings.ts";

/** A phone, a laptop, a mail address and some calls: more is a mistake. */
const mostReaches = 10;

const noSuchReach = no(404, "noSuchReach", "There is no such way to reach you; it may have been taken out.");
const tooMany = no(
  409,
  "tooManyReaches",
  `There are ${mostReaches} ways to reach you already. Take one out first.`,
);
const ownersOnly = no(403, "notYours", "Webhooks and web calls are for the owner of the business.");

/** By what each person can be reached: everybody's own only. */
export function reachRoutes({ store, makeId, randomBytes, notifier }: HttpSurroundings): Route[] {
  async function add({ body, signed, atMs }: Asked<Signed>): Promise<Answer> {
    const read = readBody(reachForm, body);
    if ("refusal" in read) return read.refusal;
    const form = read.value;
    const calls = form.way === "webhook" || form.way === "http";
    // A pass is a link that may be handed on: it lets nobody make this machine call addresses.
    if (calls && signed.role !== "owner") return ownersOnly;
    const wrong = form.way === "http" ? whyNotTemplate(form.body) : null;
    if (wrong !== null) return no(400, "wrongField", `body.${wrong.sentence}`, `body.${wrong.field}`);
    const kept = bodyToKeep(form);
    const { way, label } = form;
    const reach = { reachId: makeId(), ...{ way, label, body: kept.body, createdAtMs: atMs } };
    const person = { role: signed.role, personId: personIdOf(signed) };
    if (!(await store.reaches.add(reach, person, mostReaches))) return tooMany;
    return {
      status: 201,
      body: { reachId: reach.reachId, ...("secret" in kept ? { secret: kept.secret } : {}) },
    };
  }

  /** A webhook's secret is made here and told this once. */
  function bodyToKeep(form: ReachForm): { body: unknown } | { body: unknown; secret: string } {
    if (form.way !== "webhook") return { body: form.body };
    const secret = webhookSecret(randomBytes);
    return { body: { ...form.body, secret }, secret };
  }

  return [
    signedRoute("get", "/api/reach-key", "chooseReach", () =>
      Promise.resolve({ status: 200, body: { publicKey: notifier.pushKey } }),
    ),
    signedRoute("get", "/api/reaches", "chooseReach", async ({ signed }) => {
      const person = { role: signed.role, personId: personIdOf(signed) };
      return { status: 200, body: { reaches: (await store.reaches.ofPerson(person)).map(viewOf) } };
    }),
    signedRoute("post", "/api/reaches", "chooseReach", add),
    signedRoute("delete", "/api/reaches/:reachId", "chooseReach", async ({ params, signed, atMs }) => {
      const person = { role: signed.role, personId: personIdOf(signed) };
      const isEnded = await store.reaches.end(params["reachId"] ?? "", person, "taken out", atMs);
      return isEnded ? { status: 200, body: {} } : noSuchReach;
    }),
  ];
}

function viewOf(reach: Reach): ReachView {
  const { reachId, way, label, createdAtMs, lastTakenAtMs, troubleFromAtMs, lastSaid } = reach;
  return {
    ...{ reachId, way, label, createdAtMs, lastTakenAtMs, troubleFromAtMs, lastSaid },
    to: toOf(reach),
  };
}

/** Where it leads, as far as that is no secret: the path of a push or a webhook often is one. */
function toOf({ way, body }: Reach): string {
  switch (way) {
    case "push":
      return new URL(pushBody.parse(body).endpoint).host;
    case "email":
      return emailBody.parse(body).to;
    case "webhook":
      return new URL(webhookBody.parse(body).url).host;
    case "http":
      return new URL(httpBody.parse(body).url).host;
  }
}
