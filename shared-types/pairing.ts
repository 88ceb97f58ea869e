import * as z from "zod";

/** What an agent sends once to be paired: the one-time code a person typed, and who it is. */
export const pairingRequest = z.object({
  code: z.string().min(1).max(40),
  agentId: z.string().min(1).max(80),
  hostName: z.string().min(1).max(200),
});
export type PairingRequest = z.infer<typeof pairingRequest>;

/** What it gets: the token it signs in with from now on. Shown once, kept hashed by the dashboard. */
export const pairingAnswer = z.object({
  token: z.string().min(20),
  boothId: z.string(),
  boothName: z.string(),
});
export type PairingAnswer = z.infer<typeof pairingAnswer>;

/** How the HTTP side says no: a sentence for the person, a word for code, the field where there is one. */
export const httpError = z.object({
  error: z.string(),
  sentence: z.string(),
  field: z.string().nullable(),
});
export type HttpError = z.infer<typeof httpError>;
