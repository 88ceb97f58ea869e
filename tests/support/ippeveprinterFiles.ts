/** A message bus that only those who know its socket can reach, and that lets them do everything. */
export function dbusConf(socket: string): string {
  return `<!DOCTYPE busconfig PUBLIC "-//freedesktop//DTD D-Bus Bus Configuration 1.0//EN"
  "http://www.freedesktop.org/standards/dbus/1.0/busconfig.dtd">
<busconfig>
  <type>system</type>
  <listen>unix:path=${socket}</listen>
  <auth>EXTERNAL</auth>
  <policy context="default">
    <allow user="*"/>
    <allow own="*"/>
    <allow send_type="method_call"/>
    <allow send_destination="*" eavesdrop="false"/>
    <allow receive_sender="*"/>
  </policy>
</busconfig>
`;
}

/** Announces nothing to the network this computer is on. */
export const avahiConf = `[server]
use-ipv4=yes
use-ipv6=no
allow-interfaces=lo
[wide-area]
enable-wide-area=no
[publish]
publish-workstation=no
publish-hinfo=no
[rlimits]
`;

/** What the printer runs for each job; its stderr is the same language as a CUPS backend's. */
export function commandScript(folder: string): string {
  return `#!/bin/sh
cd "${folder}" || exit 1
for each in say/*; do [ -f "$each" ] && cat "$each" >&2 && rm -f "$each"; done
echo "ATTR: job-impressions=\${IPP_COPIES:-1} job-impressions-completed=\${IPP_COPIES:-1}" >&2
sleep 0.1
exit 0
`;
}

/** A request for ipptool(1), in its own language. */
export const printJobTest = `{
  NAME "Print a picture"
  OPERATION Print-Job
  GROUP operation-attributes-tag
  ATTR charset attributes-charset utf-8
  ATTR language attributes-natural-language en
  ATTR uri printer-uri $uri
  ATTR name requesting-user-name guest
  ATTR mimeMediaType document-format image/jpeg
  GROUP job-attributes-tag
  ATTR integer copies $copies
  FILE $filename
  STATUS successful-ok
}
`;
