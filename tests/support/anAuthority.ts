import { execFileSync } from "node:child_process";
import { createHash, X509Certificate } from "node:crypto";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { TlsFiles } from "../../dashboard/http/openServer.ts";
import { findTool } from "./findTool.ts";
import { scratchFolder } from "./scratchFolder.ts";

/** A certificate authority of a test's own, as a business without a public name would make one by openssl. */
export type AnAuthority = {
  /** Its own certificate, PEM, which devices would be told to trust. */
  readonly caFile: string;
  readonly ca: string;
  /** A certificate for these names and addresses ("DNS:booths.example", "IP:127.0.0.1"). */
  issue(names: readonly string[]): TlsFiles;
};

const curve = ["-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:prime256v1", "-nodes"];

export function anAuthority(): AnAuthority {
  const folder = scratchFolder();
  const at = (name: string) => join(folder, name);
  const openssl = (...args: string[]) =>
    void execFileSync(findTool("openssl") ?? "openssl", args, { stdio: "ignore", cwd: folder });
  const own = ["-subj", "/CN=Booths test authority", "-days", "2", "-keyout", "ca.key", "-out", "ca.pem"];
  openssl("req", "-x509", ...curve, ...own);
  let issued = 0;
  return {
    ...{ caFile: at("ca.pem"), ca: readFileSync(at("ca.pem"), "utf8") },
    issue(names) {
      issued += 1;
      const [key, asked, cert, more] = ["key", "csr", "pem", "ext"].map((end) => `leaf-${issued}.${end}`);
      if (key === undefined || asked === undefined || cert === undefined || more === undefined)
        throw new Error("four names");
      writeFileSync(at(more), `subjectAltName=${names.join()}\n`);
      openssl("req", "-new", ...curve, "-subj", "/CN=dashboard", "-keyout", key, "-out", asked);
      const by = ["-CA", "ca.pem", "-CAkey", "ca.key", "-CAcreateserial", "-days", "2"];
      openssl("x509", "-req", "-in", asked, ...by, "-extfile", more, "-out", cert);
      return { certFile: at(cert), keyFile: at(key) };
    },
  };
}

/** By what a browser can be told to trust a certificate: the hash of its public key, base64. */
export function keyHash(certFile: string): string {
  const { publicKey } = new X509Certificate(readFileSync(certFile));
  const spki = publicKey.export({ type: "spki", format: "der" });
  return createHash("sha256").update(spki).digest("base64");
}
