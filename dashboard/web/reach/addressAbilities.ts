import type { Abilities } from "../state/alertShapes.ts";
import { address as words } from "../words/en/reach.ts";
import type { ListedAbility } from "./AbilityList.tsx";

type Place = Pick<Window, "isSecureContext"> & { location: Pick<Location, "protocol"> };

/**
 * What an address allows. Browsers take a page on the computer's own name for secure also without https
 * (W3C Secure Contexts section 3.1), so the two are told apart.
 */
export function addressAbilities(
  { isSecureContext, location }: Place,
  { isPublic }: Abilities,
): ListedAbility[] {
  const isHttps = location.protocol === "https:";
  const secureSays = isHttps ? words.secureYes : isSecureContext ? words.secureLocal : words.secureNo;
  const outside = {
    yes: { is: "yes" as const, says: words.outsideYes },
    no: { is: "no" as const, says: words.outsideNo },
    unknown: { is: "unknown" as const, says: words.outsideUnknown },
  };
  return [
    { icon: "secure", name: words.secure, is: isHttps ? "yes" : "no", says: secureSays },
    {
      icon: "push",
      name: words.push,
      is: isSecureContext ? "yes" : "no",
      says: isSecureContext ? words.pushYes : words.pushNo,
    },
    { icon: "outside", name: words.outside, ...outside[isPublic] },
  ];
}
