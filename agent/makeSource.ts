import type { SourceConfig } from "./config.ts";
import type { Source } from "./readings/source.ts";
import { folderSource } from "./sources/folderSource.ts";
import { hookSource } from "./sources/hook/hookSource.ts";
import { hostSource } from "./sources/hostSource.ts";
import { ippSource } from "./sources/ipp/ippSource.ts";
import { machineSource } from "./sources/machine/machineSource.ts";
import { peersSource } from "./sources/peers/peersSource.ts";
import { spoolerSource } from "./sources/spooler/spoolerSource.ts";
import type { Surroundings } from "./sources/surroundings.ts";
import { thermometersSource } from "./sources/thermometersSource.ts";

/** The source that a part of the configuration asks for. */
export function makeSource(config: SourceConfig, surroundings: Surroundings): Source {
  switch (config.kind) {
    case "ipp":
      return ippSource(config, surroundings);
    case "spooler":
      return spoolerSource(config, surroundings);
    case "folder":
      return folderSource(config, surroundings);
    case "hook":
      return hookSource(config, surroundings);
    case "host":
      return hostSource(config, surroundings);
    case "thermometers":
      return thermometersSource(config, surroundings);
    case "peers":
      return peersSource(config, surroundings);
    case "machine":
      return machineSource(config);
  }
}
