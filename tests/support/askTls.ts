import { once } from "node:events";
import type { IncomingMessage, OutgoingHttpHeaders } from "node:http";
import { request } from "node:https";
import type { TLSSocket } from "node:tls";

/** An answer over TLS, with the serial number of the certificate that was shown for it. */
export type TlsAnswer = {
  readonly status: number;
  readonly headers: IncomingMessage["headers"];
  readonly body: unknown;
  readonly serial: string;
};

/** Asks over a connection of its own, trusting one authority only; rejects where that does not vouch. */
export async function askTls(
  url: string,
  ca: string,
  { headers = {}, body }: { headers?: OutgoingHttpHeaders; body?: unknown } = {},
): Promise<TlsAnswer> {
  const method = body === undefined ? "GET" : "POST";
  const asked = request(url, {
    ...{ ca, method, agent: false },
    headers: { "content-type": "application/json", ...headers },
  });
  asked.end(body === undefined ? undefined : JSON.stringify(body));
  const [response] = (await once(asked, "response")) as [IncomingMessage];
  const serial = (response.socket as TLSSocket).getPeerCertificate().serialNumber;
  const parts: Buffer[] = [];
  for await (const part of response) parts.push(part as Buffer);
  const answer: unknown = JSON.parse(Buffer.concat(parts).toString("utf8"));
  return { status: response.statusCode ?? 0, headers: response.headers, body: answer, serial };
}
