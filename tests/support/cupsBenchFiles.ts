/** Where a private cupsd keeps everything: in one folder. A daemon of root's hands its work to user lp. */
export function cupsFilesConf(folder: string, isRoot: boolean): string {
  return `
ServerRoot ${folder}/root
ServerBin ${folder}/bin
DataDir /usr/share/cups
CacheDir ${folder}/cache
StateDir ${folder}/state
RequestRoot ${folder}/spool
TempDir ${folder}/spool/tmp
AccessLog ${folder}/log/access
ErrorLog ${folder}/log/error
PageLog ${folder}/log/page
FileDevice Yes
${isRoot ? "User lp\nGroup lp\nSystemGroup root" : ""}
`;
}

export function cupsdConf(port: number): string {
  const everything = "Order allow,deny\n  Allow all";
  return `
Listen 127.0.0.1:${port}
Browsing No
DefaultAuthType None
DefaultShared No
IdleExitTimeout 0
LogLevel warn
ErrorPolicy stop-printer
<Location />
  ${everything}
</Location>
<Location /admin>
  ${everything}
</Location>
<Policy default>
  JobPrivateAccess default
  JobPrivateValues default
  SubscriptionPrivateAccess default
  SubscriptionPrivateValues default
  <Limit All>
    ${everything}
  </Limit>
</Policy>
`;
}

/**
 * The made-up printer: 400 sheets in a kit, a print in 50 ms, and what it says steered by files in
 * `control`. Lines on stderr are CUPS' own language between a backend and the queue (backend(7)).
 */
export function backendScript(control: string): string {
  return `#!/bin/sh
[ $# -eq 0 ] && { echo 'direct boothsim "Unknown" "Made-up booth printer"'; exit 0; }
cd "${control}" || exit 1
copies=$4
say() { for each in say/*; do [ -f "$each" ] && cat "$each" >&2 && rm -f "$each"; done; }
echo "ATTR: marker-names='Dye ribbon',Paper" >&2
echo "ATTR: marker-types=ribbon-wax,unknown" >&2
printed=0
while [ "$printed" -lt "$copies" ]; do
  say
  while [ -e hold ]; do sleep 0.05; say; done
  [ -e fail ] && exit 1
  sleep 0.05
  printed=$((printed + 1))
  left=$(($(cat left) - 1))
  echo "$left" >left
  echo "PAGE: $printed 1" >&2
  echo "ATTR: marker-levels=$((left * 100 / 400)),-2" >&2
  echo "ATTR: marker-message='$left native prints remaining on 4x6 media'" >&2
done
say
exit 0
`;
}
