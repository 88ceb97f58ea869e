/**
 * Whether a browser's Origin header names this dashboard: the configured origin, or without one the host
 * that the request itself was sent to.
 */
export function isOwnOrigin(
  origin: string | undefined,
  host: string | undefined,
  configured: string | null,
): boolean {
  if (origin === undefined) return false;
  if (configured !== null) return origin === configured;
  return URL.canParse(origin) && host !== undefined && new URL(origin).host === host.toLowerCase();
}
