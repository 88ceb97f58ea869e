import { X509Certificate } from "node:crypto";
import { readFileSync, statSync } from "node:fs";
import { createServer as createHttp, type RequestListener, type Server as HttpServer } from "node:http";
import { createServer as createHttps, type Server as HttpsServer } from "node:https";
import { createSecureContext } from "node:tls";
import type { Logger } from "pino";

/** Where a certificate lies, PEM: the chain with the dashboard's own one first, and its key. */
export type TlsFiles = { readonly certFile: string; readonly keyFile: string };

/** The certificate or its key cannot be used; the message says which file and why. */
export class CertificateUnusable extends Error {}

export type OpenServer = {
  readonly server: HttpServer | HttpsServer;
  /** Takes a renewed certificate into use, for the connections that come after; an unusable one is left. */
  readonly renew: (nowMs: number) => void;
};

/** A server that speaks plain HTTP, or TLS where there are files for it. Throws `CertificateUnusable`. */
export function openServer(
  listener: RequestListener,
  files: TlsFiles | null,
  { nowMs, log }: { readonly nowMs: number; readonly log: Logger },
): OpenServer {
  if (files === null) return { server: createHttp(listener), renew: () => undefined };
  let stamp = stampOf(files);
  const server = createHttps(readTls(files, nowMs, log), listener);
  return {
    server,
    renew(atMs) {
      const next = stampOf(files);
      if (next === stamp) return;
      stamp = next;
      try {
        server.setSecureContext(readTls(files, atMs, log));
        log.info("the certificate was renewed");
      } catch (error) {
        log.warn({ err: error }, "a renewed certificate cannot be used; the one before stays");
      }
    },
  };
}

/** Reads both files and tries whether they belong together. */
function readTls({ certFile, keyFile }: TlsFiles, nowMs: number, log: Logger): { cert: string; key: string } {
  const cert = readPem(certFile);
  const key = readPem(keyFile);
  try {
    createSecureContext({ cert, key });
  } catch (error) {
    throw new CertificateUnusable(`${certFile} and ${keyFile} make no certificate: ${reasonOf(error)}.`);
  }
  const endsAtMs = Date.parse(new X509Certificate(cert).validTo);
  if (endsAtMs < nowMs) log.warn({ certFile, endsAtMs }, "the certificate has ended; browsers refuse it");
  return { cert, key };
}

function readPem(file: string): string {
  try {
    return readFileSync(file, "utf8");
  } catch (error) {
    throw new CertificateUnusable(`${file} cannot be read: ${reasonOf(error)}.`);
  }
}

/** Changes when a file does; empty while one of them is not there. */
function stampOf({ certFile, keyFile }: TlsFiles): string {
  const stamps = [certFile, keyFile].map((file) => statSync(file, { throwIfNoEntry: false })?.mtimeMs);
  return stamps.includes(undefined) ? "" : stamps.join();
}

const reasonOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));
