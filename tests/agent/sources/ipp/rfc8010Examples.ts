import type { IppAttribute, IppMessage } from "../../../../agent/sources/ipp/ippMessage.ts";

/**
 * The worked examples of RFC 8010 appendix A: the octets in the order of the tables there, and what they
 * mean. In the octets a number is its hexadecimal digits and a text in quotes stands for itself.
 */
export type Example = { readonly title: string; readonly octets: string; readonly message: IppMessage };

const charsetOctets = `47 0012 "attributes-charset" 0005 "utf-8"`;
const languageOctets = `48 001b "attributes-natural-language" 0005 "en-us"`;
const printerOctets = `45 000b "printer-uri" 002c "ipp://printer.example.com/ipp/print/pinetree"`;
const jobNameOctets = `42 0008 "job-name" 0006 "foobar"`;
const jobOctets = `21 0006 "job-id" 0004 00000093 45 0007 "job-uri"
  0030 "ipp://printer.example.com/ipp/print/pinetree/147" 23 0009 "job-state" 0004 00000003`;
const unsupportedOctets = `05 21 0006 "copies" 0004 00000014 10 0005 "sides" 0000`;
const mediaOctets = `34 0009 "media-col" 0000
  4a 0000 000a "media-size" 34 0000 0000
  4a 0000 000b "x-dimension" 21 0000 0004 00005208
  4a 0000 000b "y-dimension" 21 0000 0004 00007404
  37 0000 0000
  4a 0000 000a "media-type" 44 0000 000a "stationery" 37 0000 0000`;

const charset: IppAttribute = {
  name: "attributes-charset",
  values: [{ syntax: "charset", text: "utf-8" }],
};
const language: IppAttribute = {
  name: "attributes-natural-language",
  values: [{ syntax: "naturalLanguage", text: "en-us" }],
};
const printer: IppAttribute = {
  name: "printer-uri",
  values: [{ syntax: "uri", text: "ipp://printer.example.com/ipp/print/pinetree" }],
};
const jobName: IppAttribute = { name: "job-name", values: [{ syntax: "name", text: "foobar" }] };
const job: readonly IppAttribute[] = [
  { name: "job-id", values: [{ syntax: "integer", int: 147 }] },
  {
    name: "job-uri",
    values: [{ syntax: "uri", text: "ipp://printer.example.com/ipp/print/pinetree/147" }],
  },
  { name: "job-state", values: [{ syntax: "enum", int: 3 }] },
];
const copies = (int: number): IppAttribute => ({ name: "copies", values: [{ syntax: "integer", int }] });
const unsupported = {
  tag: 0x05,
  attributes: [copies(20), { name: "sides", values: [{ syntax: "outOfBand", tag: 0x10 }] }],
} as const;
const mediaCol: IppAttribute = {
  name: "media-col",
  values: [
    {
      syntax: "collection",
      members: [
        {
          name: "media-size",
          values: [
            {
              syntax: "collection",
              members: [
                { name: "x-dimension", values: [{ syntax: "integer", int: 21_000 }] },
                { name: "y-dimension", values: [{ syntax: "integer", int: 29_700 }] },
              ],
            },
          ],
        },
        { name: "media-type", values: [{ syntax: "keyword", text: "stationery" }] },
      ],
    },
  ],
};

function status(text: string): IppAttribute {
  return { name: "status-message", values: [{ syntax: "text", text }] };
}

function aMessage(code: number, requestId: number, groups: IppMessage["groups"], document = ""): IppMessage {
  const data = new Uint8Array(Buffer.from(document));
  return { version: { major: 1, minor: 1 }, code, requestId, groups, data };
}

export const rfc8010Examples: readonly Example[] = [
  {
    title: "A.1 Print-Job request",
    octets: `0101 0002 00000001 01 ${charsetOctets} ${languageOctets} ${printerOctets} ${jobNameOctets}
      22 0016 "ipp-attribute-fidelity" 0001 01 02 21 0006 "copies" 0004 00000014
      44 0005 "sides" 0013 "two-sided-long-edge" 03 "%!PDF..."`,
    message: aMessage(
      0x0002,
      1,
      [
        {
          tag: 0x01,
          attributes: [
            charset,
            language,
            printer,
            jobName,
            { name: "ipp-attribute-fidelity", values: [{ syntax: "boolean", bool: true }] },
          ],
        },
        {
          tag: 0x02,
          attributes: [
            copies(20),
            { name: "sides", values: [{ syntax: "keyword", text: "two-sided-long-edge" }] },
          ],
        },
      ],
      "%!PDF...",
    ),
  },
  {
    title: "A.2 Print-Job response, successful",
    octets: `0101 0000 00000001 01 ${charsetOctets} ${languageOctets}
      41 000e "status-message" 000d "successful-ok" 02 ${jobOctets} 03`,
    message: aMessage(0x0000, 1, [
      { tag: 0x01, attributes: [charset, language, status("successful-ok")] },
      { tag: 0x02, attributes: job },
    ]),
  },
  {
    title: "A.3 Print-Job response, failure",
    octets: `0101 040b 00000001 01 ${charsetOctets} ${languageOctets} 41 000e "status-message"
      002f "client-error-attributes-or-values-not-supported" ${unsupportedOctets} 03`,
    message: aMessage(0x040b, 1, [
      {
        tag: 0x01,
        attributes: [charset, language, status("client-error-attributes-or-values-not-supported")],
      },
      unsupported,
    ]),
  },
  {
    title: "A.4 Print-Job response, success with attributes ignored",
    octets: `0101 0001 00000001 01 ${charsetOctets} ${languageOctets} 41 000e "status-message"
      002f "successful-ok-ignored-or-substituted-attributes" ${unsupportedOctets} 02 ${jobOctets} 03`,
    message: aMessage(0x0001, 1, [
      {
        tag: 0x01,
        attributes: [charset, language, status("successful-ok-ignored-or-substituted-attributes")],
      },
      unsupported,
      { tag: 0x02, attributes: job },
    ]),
  },
  {
    title: "A.5 Print-URI request",
    octets: `0101 0003 00000001 01 ${charsetOctets} ${languageOctets} ${printerOctets}
      45 000c "document-uri" 0019 "ftp://foo.example.com/foo" ${jobNameOctets}
      02 21 0006 "copies" 0004 00000001 03`,
    message: aMessage(0x0003, 1, [
      {
        tag: 0x01,
        attributes: [
          charset,
          language,
          printer,
          { name: "document-uri", values: [{ syntax: "uri", text: "ftp://foo.example.com/foo" }] },
          jobName,
        ],
      },
      { tag: 0x02, attributes: [copies(1)] },
    ]),
  },
  {
    title: "A.6 Create-Job request",
    octets: `0101 0005 00000001 01 ${charsetOctets} ${languageOctets} ${printerOctets} 03`,
    message: aMessage(0x0005, 1, [{ tag: 0x01, attributes: [charset, language, printer] }]),
  },
  {
    title: "A.7 Create-Job request with collection attributes",
    octets: `0101 0005 00000001 01 ${charsetOctets} ${languageOctets} ${printerOctets} ${mediaOctets} 03`,
    message: aMessage(0x0005, 1, [{ tag: 0x01, attributes: [charset, language, printer, mediaCol] }]),
  },
  {
    title: "A.8 Get-Jobs request",
    octets: `0101 000a 0000007b 01 ${charsetOctets} ${languageOctets} ${printerOctets}
      21 0005 "limit" 0004 00000032 44 0014 "requested-attributes" 0006 "job-id"
      44 0000 0008 "job-name" 44 0000 000f "document-format" 03`,
    message: aMessage(0x000a, 123, [
      {
        tag: 0x01,
        attributes: [
          charset,
          language,
          printer,
          { name: "limit", values: [{ syntax: "integer", int: 50 }] },
          {
            name: "requested-attributes",
            values: [
              { syntax: "keyword", text: "job-id" },
              { syntax: "keyword", text: "job-name" },
              { syntax: "keyword", text: "document-format" },
            ],
          },
        ],
      },
    ]),
  },
  {
    title: "A.9 Get-Jobs response, nothing said of the second job",
    octets: `0101 0000 0000007b 01 ${charsetOctets} ${languageOctets}
      41 000e "status-message" 000d "successful-ok"
      02 21 0006 "job-id" 0004 00000093 36 0008 "job-name" 000c 0005 "fr-ca" 0003 "fou"
      02
      02 21 0006 "job-id" 0004 00000095 36 0008 "job-name" 0012 0005 "de-CH" 0009 "isch guet" 03`,
    message: aMessage(0x0000, 123, [
      { tag: 0x01, attributes: [charset, language, status("successful-ok")] },
      {
        tag: 0x02,
        attributes: [
          { name: "job-id", values: [{ syntax: "integer", int: 147 }] },
          {
            name: "job-name",
            values: [{ syntax: "nameWithLanguage", language: "fr-ca", text: "fou" }],
          },
        ],
      },
      { tag: 0x02, attributes: [] },
      {
        tag: 0x02,
        attributes: [
          { name: "job-id", values: [{ syntax: "integer", int: 149 }] },
          {
            name: "job-name",
            values: [{ syntax: "nameWithLanguage", language: "de-CH", text: "isch guet" }],
          },
        ],
      },
    ]),
  },
];

/** The bytes of an example's table. */
export function bytesOf(octets: string): Buffer {
  const parts = octets.match(/"[^"]*"|[0-9a-f]+/g) ?? [];
  return Buffer.concat(
    parts.map((part) => (part.startsWith('"') ? Buffer.from(part.slice(1, -1)) : Buffer.from(part, "hex"))),
  );
}
