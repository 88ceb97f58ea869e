import { reach as words } from "../words/en/reach.ts";

/** What a browser says of itself and of the address it is at. */
export type Device = {
  isSecure: boolean;
  hasAudio: boolean;
  isBellOn: boolean;
  hasVibration: boolean;
  hasPush: boolean;
  permission: "granted" | "denied" | "default";
  isSubscribed: boolean;
  /** iPhones and iPads let only pages on the home screen take notices. */
  isApple: boolean;
  isInstalled: boolean;
};

export type Ability = {
  icon: "sound" | "buzz" | "push" | "home";
  name: string;
  is: "yes" | "notYet" | "no";
  says: string;
};

/** What this device can do to reach its person, each in words: yes, not yet, or why not. */
export function phoneAbilities(device: Device): Ability[] {
  return [
    { icon: "sound", name: words.sound, ...soundOf(device) },
    {
      icon: "buzz",
      name: words.buzz,
      is: device.hasVibration ? "yes" : "no",
      says: device.hasVibration ? words.buzzYes : words.buzzNo,
    },
    { icon: "push", name: words.push, ...pushOf(device) },
    { icon: "home", name: words.installed, ...installedOf(device) },
  ];
}

function soundOf({ hasAudio, isBellOn }: Device): Pick<Ability, "is" | "says"> {
  if (!hasAudio) return { is: "no", says: words.soundNo };
  return isBellOn ? { is: "yes", says: words.soundYes } : { is: "notYet", says: words.soundNotYet };
}

/** Why notices come, may come or cannot: secure address, then the home screen on Apple's phones, then permission. */
function pushOf(device: Device): Pick<Ability, "is" | "says"> {
  if (!device.isSecure) return { is: "no", says: words.pushInsecure };
  if (device.isApple && !device.isInstalled) return { is: "no", says: words.pushHomeScreen };
  if (!device.hasPush) return { is: "no", says: words.pushNo };
  if (device.permission === "denied") return { is: "no", says: words.pushDenied };
  return device.permission === "granted" && device.isSubscribed
    ? { is: "yes", says: words.pushYes }
    : { is: "notYet", says: words.pushNotYet };
}

function installedOf({ isInstalled, isSecure }: Device): Pick<Ability, "is" | "says"> {
  if (isInstalled) return { is: "yes", says: words.installedYes };
  return isSecure ? { is: "notYet", says: words.installedNo } : { is: "no", says: words.installedInsecure };
}
