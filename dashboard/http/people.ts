import * as z from "zod";
import type { CodeRefusal } from "../store/oneTimeCodes.ts";
import { secretHash } from "../store/secretHash.ts";
import { no, readBody, type Answer } from "./answer.ts";
import type { Signed } from "./roles.ts";
import { openRoute, ownerRoute, type Asked, type Route } from "./route.ts";
import type { HttpSurroundings } from "./surroundings.ts";

/** A month: nobody signs in during an event, and a lost phone does not stay open for ever. */
const signInMs = 30 * 24 * 3_600_000;
/** Long enough to fetch the other phone. */
const signInLinkMs = 3_600_000;

const name = z.string().trim().min(1).max(80);
// NIST SP 800-63B section 5.1.1 asks for length and for nothing else of a password (from memory).
const newPassword = z.string().min(10).max(200);
const firstRunBody = z.object({ code: z.string().min(1).max(200), name, password: newPassword });
const signInBody = z.object({ name, password: z.string().min(1).max(200) });
const onceBody = z.object({ token: z.string().min(1).max(200) });

const refusals: Record<CodeRefusal, [status: number, sentence: string]> = {
  wrongCode: [403, "This link is not known here. Open the one that was made last."],
  usedCode: [410, "This link was used already; it works once. Ask for a new one."],
  expiredCode: [410, "This link is too old. Ask for a new one."],
};
const tooBusy = no(503, "busy", "Too many people are signing in at this moment. Try again in a minute.");

/** The first owner, signing in and out, and links that sign another phone in. */
export function peopleRoutes(with_: HttpSurroundings): Route[] {
  const { store, passwords, live, makeId } = with_;

  function newSignIn(atMs: number) {
    const token = with_.randomBytes(32).toString("base64url");
    const row = { tokenHash: secretHash(token), createdAtMs: atMs, expiresAtMs: atMs + signInMs };
    return { row, cookie: { token, forMs: signInMs } };
  }

  const whoIs = (signed: Signed) => ({
    ...{ name: signed.name, role: signed.role, expiresAtMs: signed.expiresAtMs },
    boothIds: signed.role === "owner" ? null : signed.boothIds,
  });

  async function me({ signed }: Asked): Promise<Answer> {
    const body = { isFirstRun: await store.accounts.isEmpty(), signedIn: signed && whoIs(signed) };
    return { status: 200, body };
  }

  async function firstRun({ body, atMs }: Asked): Promise<Answer> {
    const read = readBody(firstRunBody, body);
    if ("refusal" in read) return read.refusal;
    const asked = { codeHash: secretHash(read.value.code), atMs };
    const refused = await store.oneTimeCodes.check({ ...asked, purpose: "firstRun" });
    if (refused !== null) return sayRefused(refused);
    const passwordHash = await passwords.hash(read.value.password);
    if (passwordHash === null) return tooBusy;
    const account = { accountId: makeId(), name: read.value.name, passwordHash, createdAtMs: atMs };
    const { row, cookie } = newSignIn(atMs);
    const signIn = { ...row, accountId: account.accountId };
    const used = await store.oneTimeCodes.useForFirstAccount(asked, account, signIn);
    if ("refused" in used) return sayRefused(used.refused);
    return { status: 201, body: { signedIn: { name: account.name } }, cookie };
  }

  async function signIn({ body, atMs }: Asked): Promise<Answer> {
    const read = readBody(signInBody, body);
    if ("refusal" in read) return read.refusal;
    const account = await store.accounts.byName(read.value.name);
    const isRight = await passwords.isRight(read.value.password, account?.passwordHash ?? null);
    if (isRight === null) return tooBusy;
    if (account === null || !isRight) {
      with_.log.warn("sign-in refused: name and password do not belong together");
      return no(401, "wrongPassword", "Name and password do not belong together.", "password");
    }
    const { row, cookie } = newSignIn(atMs);
    await store.accounts.endExpiredSignIns(atMs);
    await store.accounts.addSignIn({ ...row, accountId: account.accountId });
    return { status: 200, body: { signedIn: { name: account.name } }, cookie };
  }

  async function signInOnce({ body, atMs }: Asked): Promise<Answer> {
    const read = readBody(onceBody, body);
    if ("refusal" in read) return read.refusal;
    const { row, cookie } = newSignIn(atMs);
    const asked = { codeHash: secretHash(read.value.token), atMs };
    const used = await store.oneTimeCodes.useForSignIn(asked, row);
    if ("refused" in used) return sayRefused(used.refused);
    return { status: 200, body: { signedIn: { name: used.account.name } }, cookie };
  }

  function sayRefused(refused: CodeRefusal): Answer {
    with_.log.warn({ refused }, "one-time link refused");
    const [status, sentence] = refusals[refused];
    return no(status, refused, sentence);
  }

  return [
    openRoute("get", "/api/me", false, me),
    openRoute("post", "/api/first-run", true, firstRun),
    openRoute("post", "/api/sign-in", true, signIn),
    openRoute("post", "/api/sign-in-once", true, signInOnce),
    openRoute("post", "/api/sign-out", false, async ({ signed }) => {
      if (signed !== null) {
        await store.accounts.endSignIn(signed.tokenHash);
        await store.passes.endSignIn(signed.tokenHash);
        live.endSignIn(signed.tokenHash);
      }
      return { status: 200, body: {}, cookie: "cleared" };
    }),
    ownerRoute("post", "/api/sign-in-links", "makeSignIns", async ({ signed, atMs }) => {
      const token = with_.randomBytes(24).toString("base64url");
      const expiresAtMs = atMs + signInLinkMs;
      await store.oneTimeCodes.add({
        ...{ codeHash: secretHash(token), purpose: "signIn", boothId: null },
        ...{ accountId: signed.accountId, createdAtMs: atMs, expiresAtMs },
      });
      return { status: 201, body: { path: `/sign-in#once=${token}`, expiresAtMs } };
    }),
  ];
}
