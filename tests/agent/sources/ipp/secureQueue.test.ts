import { execFile } from "node:child_process";
import { once } from "node:events";
import { readFile } from "node:fs/promises";
import { createServer } from "node:https";
import type { Server } from "node:https";
import type { AddressInfo } from "node:net";
import { join } from "node:path";
import { promisify } from "node:util";
import { afterAll, beforeAll, expect, test } from "vitest";
import { encodeIpp } from "../../../../agent/sources/ipp/encodeIpp.ts";
import { decodeIpp } from "../../../../agent/sources/ipp/decodeIpp.ts";
import { ippClient } from "../../../../agent/sources/ipp/ippClient.ts";
import { readPrinter } from "../../../../agent/sources/ipp/operations.ts";
import { findTool } from "../../../support/findTool.ts";
import { needsTool } from "../../../support/needsTool.ts";
import { tempFolder } from "../../../support/watchSource.ts";

/** A printer with a certificate of its own making, as nearly all printers have (RFC 7472: ipps). */
needsTool("openssl", "apt-get install openssl")("a queue over TLS", () => {
  let server: Server;
  let folder: Awaited<ReturnType<typeof tempFolder>>;

  beforeAll(async () => {
    folder = await tempFolder();
    const [key, cert] = [join(folder.path, "key.pem"), join(folder.path, "cert.pem")];
    const made = ["-newkey", "rsa:2048", "-nodes", "-keyout", key, "-out", cert, "-days", "2"];
    await promisify(execFile)(findTool("openssl") ?? "openssl", [
      "req",
      "-x509",
      ...made,
      "-subj",
      "/CN=booth",
    ]);
    server = createServer({ key: await readFile(key), cert: await readFile(cert) }, (request, response) => {
      const chunks: Buffer[] = [];
      request.on("data", (chunk: Buffer) => chunks.push(chunk));
      request.on("end", () => {
        const asked = decodeIpp(Buffer.concat(chunks));
        const requestId = "message" in asked ? asked.message.requestId : 0;
        const printer = [{ name: "printer-state", values: [{ syntax: "enum", int: 3 } as const] }];
        const groups = [{ tag: 0x04, attributes: printer }];
        const version = { major: 1, minor: 1 };
        response.end(encodeIpp({ version, code: 0, requestId, groups, data: new Uint8Array() }));
      });
    }).listen(0, "127.0.0.1");
    await once(server, "listening");
  });
  afterAll(async () => {
    server.closeAllConnections();
    server.close();
    await folder.remove();
  });

  async function readOver(trustAnyCertificate: boolean): Promise<unknown> {
    const { port } = server.address() as AddressInfo;
    const client = ippClient({ uri: `ipps://127.0.0.1:${port}/`, trustAnyCertificate, timeoutMs: 5_000 });
    const answer = await readPrinter(client);
    client.close();
    return answer;
  }

  test("is read where its certificate is accepted by the settings", async () => {
    expect(await readOver(true)).toMatchObject({ state: "idle" });
  });
  test("is refused otherwise, and the fault names the setting", async () => {
    expect(await readOver(false)).toMatchObject({
      fault: "refused",
      detail: expect.stringContaining("trustAnyCertificate") as string,
    });
  });
});
