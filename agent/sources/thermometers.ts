import { join } from "node:path";
import { listNames, readInt, readText } from "./sysfs.ts";

/** A thermometer that the operating system shows. */
export type Thermometer = {
  /** Stays the same over restarts: made of the sensor's own names, not of the order it was found in. */
  readonly key: string;
  read(): Promise<ThermometerReading>;
};

export type ThermometerReading =
  | { readonly celsius: number; readonly humidityPct: number | null }
  | { readonly fault: "unreadable"; readonly detail: string };

/**
 * The thermometers under a sysfs tree. A sensor whose names another one has too gets `#2`, `#3`.
 *
 * **Source:** Linux kernel documentation: hwmon/sysfs-interface, ABI sysfs-class-thermal, w1/slaves/w1_therm,
 * ABI sysfs-bus-iio.
 */
export async function findThermometers(root: string): Promise<readonly Thermometer[]> {
  const found = await Promise.all([findHwmon(root), findZones(root), findOneWire(root), findIio(root)]);
  const used = new Map<string, number>();
  return found.flat().map((thermometer) => {
    const nth = (used.get(thermometer.key) ?? 0) + 1;
    used.set(thermometer.key, nth);
    return nth === 1 ? thermometer : { ...thermometer, key: `${thermometer.key}#${nth}` };
  });
}

async function findHwmon(root: string): Promise<readonly Thermometer[]> {
  const base = join(root, "class", "hwmon");
  const perChip = (await listNames(base)).map(async (chip) => {
    const folder = join(base, chip);
    const name = (await readText(join(folder, "name"))) ?? chip;
    const inputs = (await listNames(folder)).filter((each) => /^temp\d+_input$/.test(each));
    return await Promise.all(
      inputs.map(async (input) => {
        const label = await readText(join(folder, input.replace("_input", "_label")));
        const key = `hwmon:${name}/${label ?? input.replace("_input", "")}`;
        return milliThermometer(key, join(folder, input));
      }),
    );
  });
  return (await Promise.all(perChip)).flat();
}

async function findZones(root: string): Promise<readonly Thermometer[]> {
  const base = join(root, "class", "thermal");
  const zones = (await listNames(base)).filter((name) => name.startsWith("thermal_zone"));
  return await Promise.all(
    zones.map(async (zone) => {
      const type = (await readText(join(base, zone, "type"))) ?? zone;
      return milliThermometer(`thermal:${type}`, join(base, zone, "temp"));
    }),
  );
}

/** A sensor whose file holds thousandths of a degree. */
function milliThermometer(key: string, path: string): Thermometer {
  return {
    key,
    async read() {
      const milliC = await readInt(path);
      return milliC === null
        ? unreadable("it gives no number")
        : { celsius: milliC / 1_000, humidityPct: null };
    },
  };
}

async function findOneWire(root: string): Promise<readonly Thermometer[]> {
  const base = join(root, "bus", "w1", "devices");
  // Family 28 is the usual digital thermometer of the 1-Wire bus.
  const names = (await listNames(base)).filter((name) => name.startsWith("28-"));
  return names.map((name) => ({
    key: `w1:${name}`,
    async read() {
      const text = await readText(join(base, name, "w1_slave"));
      return text === null ? unreadable("it gives no answer") : parseOneWire(text);
    },
  }));
}

/** What the sensor holds after power-on, before it has measured anything, in thousandths of a degree. */
const powerOnMilliC = 85_000;

/** Two lines: the first ends in YES if the checksum fits, the second in `t=` and thousandths of a degree. */
export function parseOneWire(text: string): ThermometerReading {
  const [check = "", measured = ""] = text.split("\n");
  if (!/\bYES\s*$/.test(check)) return unreadable("the checksum is wrong");
  const milliC = Number(/\bt=(-?\d+)\s*$/.exec(measured)?.[1] ?? NaN);
  if (Number.isNaN(milliC)) return unreadable("it gives no number");
  if (milliC === powerOnMilliC) return unreadable("85 °C is what it says before it has measured");
  return { celsius: milliC / 1_000, humidityPct: null };
}

async function findIio(root: string): Promise<readonly Thermometer[]> {
  const base = join(root, "bus", "iio", "devices");
  const devices = (await listNames(base)).filter((name) => name.startsWith("iio:device"));
  const found = await Promise.all(
    devices.map(async (device) => {
      const folder = join(base, device);
      const isThermometer = (await listNames(folder)).some((name) => /^in_temp_(input|raw)$/.test(name));
      const name = (await readText(join(folder, "name"))) ?? device;
      return isThermometer ? [{ key: `iio:${name}`, read: () => readIio(folder) }] : [];
    }),
  );
  return found.flat();
}

async function readIio(folder: string): Promise<ThermometerReading> {
  const milliC = await readChannel(folder, "in_temp");
  if (milliC === null) return unreadable("it gives no number");
  const milliPct = await readChannel(folder, "in_humidityrelative");
  const humidityPct = milliPct === null ? null : milliPct / 1_000;
  const isPct = humidityPct !== null && humidityPct >= 0 && humidityPct <= 100;
  return { celsius: milliC / 1_000, humidityPct: isPct ? humidityPct : null };
}

/** A channel in thousandths: already computed (`_input`), else (raw + offset) x scale. */
async function readChannel(folder: string, channel: string): Promise<number | null> {
  const input = await readNumber(join(folder, `${channel}_input`));
  if (input !== null) return input;
  const raw = await readNumber(join(folder, `${channel}_raw`));
  const scale = await readNumber(join(folder, `${channel}_scale`));
  if (raw === null || scale === null) return null;
  return (raw + ((await readNumber(join(folder, `${channel}_offset`))) ?? 0)) * scale;
}

/** Some drivers write fractions. */
async function readNumber(path: string): Promise<number | null> {
  const text = await readText(path);
  return text !== null && /^-?\d+(\.\d+)?$/.test(text) ? Number(text) : null;
}

function unreadable(detail: string): ThermometerReading {
  return { fault: "unreadable", detail };
}
