import type { NewDelivery } from "../store/notices.ts";
import { secretHash } from "../store/secretHash.ts";
import { arrivalSecret } from "./ownKeys.ts";

/** A delivery of a notice by one way, to be sent at an instant; the store keeps the hash of what its device will say. */
export function newDelivery(
  { arrivalKey, makeId }: { readonly arrivalKey: string; readonly makeId: () => string },
  on: Pick<NewDelivery, "noticeId" | "reachId" | "state" | "nextTryAtMs">,
): NewDelivery {
  const deliveryId = makeId();
  return { ...on, deliveryId, arrivalHash: secretHash(arrivalSecret(arrivalKey, deliveryId)) };
}
