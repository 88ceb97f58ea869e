/** Every keyword of printer-state-reasons in RFC 8011 section 5.4.12 but `none`. */
export const rfc8011Reasons: readonly string[] = [
  ...["other", "connecting-to-device", "cover-open", "developer-empty", "developer-low", "door-open"],
  ...["fuser-over-temp", "fuser-under-temp", "input-tray-missing", "interlock-open"],
  ...["interpreter-resource-unavailable", "marker-supply-empty", "marker-supply-low"],
  ...["marker-waste-almost-full", "marker-waste-full", "media-empty", "media-jam", "media-low"],
  ...["media-needed", "moving-to-paused", "opc-life-over", "opc-near-eol", "output-area-almost-full"],
  ...["output-area-full", "output-tray-missing", "paused", "shutdown", "spool-area-full"],
  ...["stopped-partly", "stopping", "timed-out", "toner-empty", "toner-low"],
];
