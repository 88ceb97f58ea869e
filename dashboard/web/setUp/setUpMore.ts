/** What is fetched after Set-up's first view: passes, ways to be reached, what is chosen about notices. */
export { AddressAbilities } from "../reach/AddressAbilities.tsx";
export { HowReached } from "../reach/HowReached.tsx";
export { NoticeSettings } from "./NoticeSettings.tsx";
export { Passes } from "./Passes.tsx";
export { Reaches } from "./Reaches.tsx";
