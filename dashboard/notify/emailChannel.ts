import { emailBody, type MailServer } from "@boothward/shared-types";
import { createTransport } from "nodemailer";
import type { Channel, Message, SendResult } from "./channel.ts";

/** The business's mail server with its password; null user: it wants none. */
export type MailAccess = MailServer & { readonly password: string | null };

export type EmailOptions = {
  /** Null: no mail server is set. */
  readonly access: () => Promise<MailAccess | null>;
  /** A certificate to be trusted beside the well-known ones, PEM. */
  readonly trustedCa: string | null;
  /** The whole talk with the server takes no longer. */
  readonly mostMs: number;
};

/** E-mail by the business's own server; a repeat has the same Message-ID, and mails of one alert stand together. */
export function emailChannel({ access, trustedCa, mostMs }: EmailOptions): Channel {
  return {
    async send(body, message, atMs) {
      const { to } = emailBody.parse(body);
      const server = await access();
      if (server === null) return { result: "refused", reason: "no mail server is set up" };
      const transport = createTransport(transportOf(server, trustedCa, mostMs));
      const isLate = new Promise<SendResult>((resolve) => {
        const late: SendResult = {
          result: "retryable",
          retryInMs: null,
          said: "the mail server did not answer in time",
        };
        setTimeout(() => resolve(late), mostMs).unref();
      });
      const sending = transport.sendMail(mailOf(message, server.from, to, atMs)).then(sent, resultOfError);
      return Promise.race([sending, isLate]).finally(() => transport.close());
    },
  };
}

const sent = (): SendResult => ({ result: "sent" });

function transportOf(server: MailAccess, trustedCa: string | null, mostMs: number) {
  const { host, port, security, user, password } = server;
  return {
    ...{ host, port },
    // RFC 8314 section 3: TLS from the first byte (465), or STARTTLS (587) and not without it.
    ...{ secure: security === "tls", requireTLS: security === "startTls", ignoreTLS: security === "open" },
    ...(user === null ? {} : { auth: { user, pass: password ?? "" } }),
    ...{ connectionTimeout: mostMs, greetingTimeout: mostMs, socketTimeout: mostMs, dnsTimeout: mostMs },
    ...(trustedCa === null ? {} : { tls: { ca: trustedCa } }),
  };
}

function mailOf({ notice, deliveryId, link, title }: Message, from: string, to: string, atMs: number) {
  const domain = from.split("@")[1] ?? "localhost";
  const thread = notice.alertId === null ? {} : { references: `<alert-${notice.alertId}@${domain}>` };
  return {
    ...{ from, to, subject: notice.text, date: new Date(atMs) },
    text: `${title}: ${notice.text}\n\n${link}\n`,
    messageId: `<${deliveryId}@${domain}>`,
    ...thread,
    // RFC 3834 section 5: nobody's automatic reply is wanted.
    headers: { "Auto-Submitted": "auto-generated" },
    ...(notice.severity === "actNow" ? { priority: "high" as const } : {}),
  };
}

/** RFC 5321 section 4.2.1: 4yz may go another time, 5yz will not. */
function resultOfError(error: Error): SendResult {
  const code: unknown = Reflect.get(error, "responseCode");
  const word = String(Reflect.get(error, "code"));
  const later = (said: string): SendResult => ({ result: "retryable", retryInMs: null, said });
  if (word === "ETLS") return later("the mail server offers no safe connection");
  if (typeof code === "number") {
    const said = `the mail server said ${code}${word === "EAUTH" ? " to name and password" : ""}`;
    return code >= 500 ? { result: "refused", reason: said } : later(said);
  }
  return later(`the mail server ${word === "ETIMEDOUT" ? "did not answer in time" : "cannot be reached"}`);
}
