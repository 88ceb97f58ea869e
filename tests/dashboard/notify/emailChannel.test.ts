import { once } from "node:events";
import { createServer, type AddressInfo } from "node:net";
import { SMTPServer, type SMTPServerOptions } from "smtp-server";
import { describe, expect, it, onTestFinished } from "vitest";
import { emailChannel, type MailAccess } from "../../../dashboard/notify/emailChannel.ts";
import { aMessage } from "../../support/aMessage.ts";
import { aCertificate, type Certificate } from "../../support/aReceiver.ts";
import { freePort } from "../../support/freePort.ts";
import { needsTool } from "../../support/needsTool.ts";

const atMs = Date.UTC(2026, 5, 20, 18);

type Mail = {
  readonly text: string;
  readonly isSecure: boolean;
  readonly to: string[];
  readonly user: unknown;
};

/** A mail server on this machine that keeps what it is given. */
async function aMailServer(over: SMTPServerOptions = {}): Promise<{ port: number; mails: Mail[] }> {
  const mails: Mail[] = [];
  const server = new SMTPServer({
    ...{ authOptional: true, disabledCommands: ["STARTTLS"], logger: false },
    onData(stream, session, done) {
      const parts: Buffer[] = [];
      stream.on("data", (part: Buffer) => parts.push(part));
      stream.on("end", () => {
        const to = session.envelope.rcptTo.map(({ address }) => address);
        const text = Buffer.concat(parts).toString("utf8");
        mails.push({ text, isSecure: session.secure, to, user: session.user });
        done();
      });
    },
    ...over,
  });
  server.on("error", () => undefined);
  const listening = server.listen(0, "127.0.0.1");
  await once(listening, "listening");
  onTestFinished(() => new Promise<void>((resolve) => server.close(resolve)));
  return { port: (listening.address() as AddressInfo).port, mails };
}

function sendTo(over: Partial<MailAccess>, trustedCa: string | null = null, mostMs = 4_000) {
  const access: MailAccess = {
    ...{ host: "localhost", port: 25, security: "open", user: null, password: null },
    ...{ from: "booths@business.example", ...over },
  };
  const channel = emailChannel({ access: () => Promise.resolve(access), trustedCa, mostMs });
  return (message = aMessage({ alertId: "alert-1" })) =>
    channel.send({ to: "ama@business.example" }, message, atMs);
}

describe("an alert by e-mail", () => {
  it("says all in its subject, and is known again when it comes twice", async () => {
    const { port, mails } = await aMailServer();
    const send = sendTo({ port });
    expect(await send()).toEqual({ result: "sent" });
    expect(await send()).toEqual({ result: "sent" });
    const ids = mails.map(({ text }) => /^Message-ID: (.*)$/im.exec(text)?.[1]);
    expect(ids).toEqual(["<delivery-1@business.example>", "<delivery-1@business.example>"]);
    const [mail] = mails;
    expect(mail?.to).toEqual(["ama@business.example"]);
    expect(mail?.text).toContain("Subject: Juniper's printer is jammed: clear it.");
    expect(mail?.text).toContain("https://booths.example/booths/juniper");
    expect(mail?.text).toContain("References: <alert-alert-1@business.example>");
    // Source: RFC 5322 section 3.3 for the date, RFC 3834 section 5 for Auto-Submitted.
    expect(mail?.text).toContain("Date: Sat, 20 Jun 2026 18:00:00 +0000");
    expect(mail?.text).toMatch(/^Auto-Submitted: auto-generated$/m);
  });

  it("keeps a line break in a text out of its head", async () => {
    const { port, mails } = await aMailServer();
    await sendTo({ port })(aMessage({ text: "Juniper\r\nBcc: other@elsewhere.example" }));
    // Source: RFC 5322 section 2.1: the head ends at the first empty line.
    const [head = ""] = mails[0]?.text.split("\r\n\r\n") ?? [];
    expect(head).toContain("Subject: Juniper Bcc: other@elsewhere.example");
    expect(head).not.toMatch(/^Bcc:/im);
    expect(mails[0]?.to).toEqual(["ama@business.example"]);
  });

  it.each([
    // Source: RFC 5321 section 4.2.1: 4yz for now, 5yz for good.
    [450, { result: "retryable", retryInMs: null, said: "the mail server said 450" }],
    [550, { result: "refused", reason: "the mail server said 550" }],
  ])("that the server refuses with %i gives %j", async (responseCode, result) => {
    const { port } = await aMailServer({
      onRcptTo: (_address, _session, done) => done(Object.assign(new Error("no"), { responseCode })),
    });
    expect(await sendTo({ port })()).toEqual(result);
  });

  it("to a server that is not there or says nothing may go another time", async () => {
    const said = { result: "retryable", retryInMs: null };
    expect(await sendTo({ port: await freePort() })()).toEqual({
      ...said,
      said: "the mail server cannot be reached",
    });
    const silent = createServer().listen(0, "127.0.0.1");
    await once(silent, "listening");
    onTestFinished(() => void silent.close());
    const { port } = silent.address() as AddressInfo;
    expect(await sendTo({ port }, null, 300)()).toEqual({
      ...said,
      said: "the mail server did not answer in time",
    });
  });

  it("to a server that stops in the middle ends in time too", async () => {
    const { port } = await aMailServer({ onRcptTo: () => undefined });
    expect(await sendTo({ port }, null, 500)()).toMatchObject({ result: "retryable" });
  });

  it("without a mail server is refused", async () => {
    const channel = emailChannel({ access: () => Promise.resolve(null), trustedCa: null, mostMs: 500 });
    expect(await channel.send({ to: "ama@business.example" }, aMessage(), atMs)).toMatchObject({
      result: "refused",
    });
  });
});

needsTool("openssl", "apt-get install openssl")("a mail server with TLS", () => {
  const login: SMTPServerOptions = {
    onAuth: ({ username, password }, _session, done) =>
      password === "right" ? done(null, { user: username }) : done(new Error("no")),
  };
  const withStartTls = (certificate: Certificate) =>
    aMailServer({ ...certificate, ...login, disabledCommands: [], authOptional: false });

  it("is talked to safely from the first byte", async () => {
    const certificate = aCertificate();
    const { port, mails } = await aMailServer({ ...certificate, secure: true });
    expect(await sendTo({ port, security: "tls" }, certificate.cert)()).toEqual({ result: "sent" });
    expect(mails).toMatchObject([{ isSecure: true }]);
  });

  it("is talked to safely after STARTTLS, with name and password", async () => {
    const certificate = aCertificate();
    const { port, mails } = await withStartTls(certificate);
    const access = { port, security: "startTls", user: "booths", password: "right" } as const;
    expect(await sendTo(access, certificate.cert)()).toEqual({ result: "sent" });
    expect(mails).toMatchObject([{ isSecure: true, user: "booths" }]);
    expect(await sendTo({ ...access, password: "wrong" }, certificate.cert)()).toEqual({
      ...{ result: "refused", reason: "the mail server said 535 to name and password" },
    });
  });

  it("gets nothing when it offers no safe connection, or a certificate of nobody's", async () => {
    const plain = await aMailServer(login);
    const access = { security: "startTls", user: "booths", password: "right" } as const;
    const said = "the mail server offers no safe connection";
    expect(await sendTo({ ...access, port: plain.port })()).toMatchObject({ result: "retryable", said });
    expect(plain.mails).toEqual([]);
    const { port, mails } = await withStartTls(aCertificate());
    expect(await sendTo({ ...access, port })()).toMatchObject({ result: "retryable" });
    expect(mails).toEqual([]);
  });
});
