import { existsSync, readdirSync, readFileSync } from "node:fs";
import { extname, join, sep } from "node:path";
import { gzipSync } from "node:zlib";
import type { RequestHandler, Response } from "express";

/** Addresses that show a page; each loads the same shell, which finds its screen by itself. */
const pagePath = new RegExp(
  `^/(${[
    "booths/[^/]+(/(attend|checks))?",
    "run-sheet(/[^/]+/(load-out|door-sign))?",
    "reports(/[^/]+)?",
    "r/[^/]+",
    "alerts|stock|set-up|sign-in|first-run|join|heard",
  ].join("|")})?/?$`,
);

/** The pages' worker: asked for each time, and in charge of all addresses. */
const workerPath = "/sw.js";

const types: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".ico": "image/x-icon",
  ".woff2": "font/woff2",
  ".webmanifest": "application/manifest+json",
  ".txt": "text/plain; charset=utf-8",
};
const packed: ReadonlySet<string> = new Set([".html", ".js", ".css", ".svg", ".webmanifest", ".txt"]);

type PageFile = { readonly type: string; readonly bytes: Buffer; readonly gzipped: Buffer | null };

/**
 * Serves the built pages from memory, packed once at the start. Files below `/assets/` carry a hash of
 * their contents in their name and are kept by the browser for ever; the others are asked for each time.
 */
export function servePages(dir: string): RequestHandler {
  const files = readPages(dir);
  return (request, response, next) => {
    if (request.method !== "GET" && request.method !== "HEAD") return next();
    const file = files.get(pagePath.test(request.path) ? "/index.html" : request.path);
    if (file === undefined) return next();
    const isHashed = request.path.startsWith("/assets/");
    response.set("Cache-Control", isHashed ? "public, max-age=31536000, immutable" : "no-cache");
    if (request.path === workerPath) response.set("Service-Worker-Allowed", "/");
    sendFile(response, file, request.acceptsEncodings("gzip") === "gzip");
  };
}

function sendFile(response: Response, { type, bytes, gzipped }: PageFile, mayGzip: boolean): void {
  response.set("Content-Type", type);
  if (gzipped !== null) response.set("Vary", "Accept-Encoding");
  if (gzipped === null || !mayGzip) return void response.send(bytes);
  response.set("Content-Encoding", "gzip");
  response.send(gzipped);
}

/** Files by their address; none where the pages are not built. The build's own notes are left out. */
function readPages(dir: string): Map<string, PageFile> {
  if (!existsSync(dir)) return new Map();
  const names = readdirSync(dir, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name).slice(dir.length));
  const files = names.flatMap((name): [string, PageFile][] => {
    const type = types[extname(name)];
    if (type === undefined) return [];
    const bytes = readFileSync(join(dir, name));
    const gzipped = packed.has(extname(name)) ? gzipSync(bytes, { level: 9 }) : null;
    return [[name.split(sep).join("/"), { type, bytes, gzipped }]];
  });
  return new Map(files);
}
