import express, { type ErrorRequestHandler, type Express, type Request, type Response } from "express";
import { rateLimit } from "express-rate-limit";
import helmet from "helmet";
import * as z from "zod";
import { secretHash } from "../store/secretHash.ts";
import { no, type Answer } from "./answer.ts";
import { abilityRoutes } from "./abilityRoutes.ts";
import { alertRoutes } from "./alertRoutes.ts";
import { bookingRoutes } from "./bookingRoutes.ts";
import { businessRoutes } from "./businessRoutes.ts";
import { boothRoutes } from "./boothRoutes.ts";
import { factRoutes } from "./factRoutes.ts";
import { isOwnOrigin } from "./isOwnOrigin.ts";
import { pairRoutes } from "./pairRoutes.ts";
import { passRoutes } from "./passRoutes.ts";
import { peopleRoutes } from "./people.ts";
import { reachRoutes } from "./reachRoutes.ts";
import { settingRoutes } from "./settingRoutes.ts";
import { testAlertRoutes } from "./testAlertRoutes.ts";
import { planRoutes } from "./planRoutes.ts";
import { planFileRoutes } from "./planFileRoutes.ts";
import { stockFileRoutes } from "./stockFileRoutes.ts";
import { stockRoutes } from "./stockRoutes.ts";
import { deviceOf } from "./deviceOf.ts";
import { fileName } from "./fileName.ts";
import { reportRoutes } from "./reportRoutes.ts";
import type { Route } from "./route.ts";
import { sharedReportRoutes } from "./sharedReportRoutes.ts";
import { signedIn } from "./signedIn.ts";
import { signInCookie, tokenIn } from "./signInCookie.ts";
import type { HttpSurroundings } from "./surroundings.ts";

/** The longest form is a booking's, a few kB with its power plan and notes. */
const mostBodyBytes = 32 * 1024;
const tryWindowMs = 10 * 60_000;

const noSuchAddress = no(404, "noSuchAddress", "There is nothing at this address.");
const foreignOrigin = no(403, "foreignOrigin", "This was asked for by a page of another site.");
const tooManyTries = no(
  429,
  "tooManyTries",
  "Too many tries went wrong from here. Wait ten minutes, then try again.",
);
const failed = no(500, "failed", "This did not work; the dashboard's log says why.");

/** The HTTP side: the API behind a sign-in, and the pages, whose shell holds no data. */
export function makeApp(with_: HttpSurroundings, pages: express.RequestHandler): Express {
  const app = express();
  const hasHttpsOrigin = with_.origin?.startsWith("https:") ?? false;
  const isHttps = with_.isTls || hasHttpsOrigin;
  app.disable("x-powered-by");
  // A proxy on this computer may say whose request it passes on; nobody else may.
  app.set("trust proxy", "loopback");
  // A browser remembers it for the whole name, whatever else is served there: only where the name is meant.
  app.use(safeHeaders(hasHttpsOrigin));
  const all = [
    ...peopleRoutes(with_),
    ...boothRoutes(with_),
    ...factRoutes(with_),
    ...pairRoutes(with_),
    ...planFileRoutes(with_),
    ...bookingRoutes(with_),
    ...alertRoutes(with_),
    ...passRoutes(with_),
    ...reachRoutes(with_),
    ...testAlertRoutes(with_),
    ...settingRoutes(with_),
    ...abilityRoutes(with_),
    ...planRoutes(with_),
    ...reportRoutes(with_),
    ...sharedReportRoutes(with_),
    ...businessRoutes(with_),
    ...stockRoutes(with_),
    ...stockFileRoutes(with_),
  ];
  // Whoever reads a body first has read it: files before forms.
  for (const { path, mostBodyBytes: limit } of all)
    if (limit !== undefined) app.use(path, express.json({ limit }));
  app.use("/api", express.json({ limit: mostBodyBytes }));
  for (const [path, routes] of byPath(all)) addPath(app, path, routes, with_, isHttps);
  app.use("/api", (_request, response) => void send(response, noSuchAddress, isHttps));
  app.use(pages);
  app.use((_request, response) => void send(response, noSuchAddress, isHttps));
  app.use(answerError(with_, isHttps));
  return app;
}

/** Everything of the page comes from this origin, and no other page may frame it. */
function safeHeaders(isHttps: boolean): express.RequestHandler {
  const self = ["'self'"];
  return helmet({
    contentSecurityPolicy: {
      useDefaults: false,
      directives: {
        ...{ defaultSrc: ["'none'"], scriptSrc: self, styleSrc: self, imgSrc: self, fontSrc: self },
        ...{ connectSrc: self, manifestSrc: self, workerSrc: self, formAction: self },
        ...{ baseUri: ["'none'"], frameAncestors: ["'none'"] },
      },
    },
    strictTransportSecurity: isHttps,
    xFrameOptions: { action: "deny" },
  });
}

function byPath(routes: readonly Route[]): Map<string, Route[]> {
  const paths = new Map<string, Route[]>();
  for (const route of routes) paths.set(route.path, [...(paths.get(route.path) ?? []), route]);
  return paths;
}

function addPath(
  app: Express,
  path: string,
  routes: readonly Route[],
  with_: HttpSurroundings,
  isHttps: boolean,
): void {
  for (const route of routes) {
    const limits = route.isLimited ? [failedTries(with_, isHttps)] : [];
    app[route.method](path, ...limits, async (request: Request, response: Response) => {
      send(response, await answerOf(route, request, with_), isHttps);
    });
  }
  const allowed = routes.map((route) => route.method.toUpperCase()).join(", ");
  app.all(path, (request: Request, response: Response) => {
    response.set("Allow", allowed);
    send(response, no(405, "wrongMethod", `${request.method} is not possible at this address.`), isHttps);
  });
}

async function answerOf(route: Route, request: Request, with_: HttpSurroundings): Promise<Answer> {
  const { store, clock, origin } = with_;
  const { headers } = request;
  // Browsers say the origin of whatever changes something; what says none is no browser and sends no cookie
  // but its own.
  const isForeign = headers.origin !== undefined && !isOwnOrigin(headers.origin, headers.host, origin);
  if (route.method !== "get" && isForeign) return foreignOrigin;
  const atMs = clock().wallMs;
  const token = tokenIn(headers.cookie);
  const signed = token === null ? null : await signedIn(store, secretHash(token), atMs);
  const params = z.record(z.string(), z.string()).parse(request.params);
  const query = singles.parse(request.query);
  const device = deviceOf(headers["user-agent"]);
  const from = { host: request.hostname || null, fromAddress: request.ip ?? null };
  return route.handle({ params, query, body: request.body, signed, device, ...from, atMs });
}

/** The query's names that stand in it once; one that is repeated is as good as none. */
const singles = z
  .record(z.string(), z.unknown())
  .transform((query) =>
    Object.fromEntries(
      Object.entries(query).filter((entry): entry is [string, string] => typeof entry[1] === "string"),
    ),
  );

/** Counts tries that were refused, per address; tries that succeed do not count. */
function failedTries(with_: HttpSurroundings, isHttps: boolean): express.RequestHandler {
  return rateLimit({
    windowMs: tryWindowMs,
    limit: with_.mostFailedTries,
    skipSuccessfulRequests: true,
    standardHeaders: "draft-8",
    legacyHeaders: false,
    handler: (request, response) => {
      with_.log.warn({ path: request.path, address: request.ip }, "too many tries");
      send(response, tooManyTries, isHttps);
    },
  });
}

function send(response: Response, { status, body, cookie, file }: Answer, isHttps: boolean): void {
  response.set("Cache-Control", "no-store");
  if (cookie === "cleared") response.set("Set-Cookie", signInCookie("", 0, isHttps));
  else if (cookie) response.set("Set-Cookie", signInCookie(cookie.token, cookie.forMs, isHttps));
  response.status(status);
  if (file === undefined) return void response.json(body);
  response.set("Content-Type", file.type);
  if (file.name !== null) response.set("Content-Disposition", fileName(file.name));
  response.send(file.bytes);
}

const bodyError = z.object({
  ...{ type: z.string(), status: z.int().min(400).max(499) },
  limit: z.number().default(mostBodyBytes),
});
const bodySentences: Readonly<Record<string, (limit: number) => string>> = {
  "entity.parse.failed": () => "The request's body is not JSON.",
  "entity.too.large": (limit) => `The request's body is larger than ${limit / 1024} kB.`,
};

/** What the body reader refuses is the asker's mistake; everything else is ours and goes to the log. */
function answerError({ log }: HttpSurroundings, isHttps: boolean): ErrorRequestHandler {
  return (error: unknown, request, response, next) => {
    if (response.headersSent) return next(error);
    const read = bodyError.safeParse(error);
    if (read.success) {
      const { type, status, limit } = read.data;
      const sentence = bodySentences[type]?.(limit) ?? "The request's body cannot be read.";
      return send(response, no(status, "wrongBody", sentence), isHttps);
    }
    if (error instanceof URIError) return send(response, noSuchAddress, isHttps);
    log.error({ err: error, method: request.method, path: request.path }, "a request failed");
    send(response, failed, isHttps);
  };
}
