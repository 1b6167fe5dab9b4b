import { roundTo, tidy } from '../../base/numbers.js';
import { boxOf, cornerOf, trianglesOf, type Mesh } from './mesh.js';
import { welded } from './weld.js';

/** One thing to be printed. It stands on z = 0. */
export interface Print {
  /** What the slicer shows: `cradle-P1-1`. */
  readonly name: string;
  readonly mesh: Mesh;
}

/** What a 3MF file was found to hold. */
export interface FoundPrints {
  readonly unit: string;
  readonly prints: readonly Print[];
  /** How many of the prints are placed on the bed. */
  readonly placed: number;
}

/** Decimals of a coordinate, mm. */
const DECIMALS = 5;
/** Room left between prints laid out side by side, mm. */
const APART = 10;
/**
 * Nothing is squeezed: of 4000 triangles that makes 250 kB where 32 would do, but squeezing them and opening
 * them again for the measure costs 55 ms. The packaging rules allow both.
 */
const STORED = 0;
/** A ZIP file cannot hold an earlier time; a fixed one keeps the bytes the same on every day and in every time zone. */
const FIXED_TIME = (): Date => new Date(1980, 0, 1);

const core = 'http://schemas.microsoft.com/3dmanufacturing/core/2015/02';
const packageTypes = 'http://schemas.openxmlformats.org/package/2006';
const xmlHead = '<?xml version="1.0" encoding="UTF-8"?>\n';

/**
 * Prints as a 3MF file: unit millimetre, one object for each with its own name, side by side along x from the
 * corner of the bed, and nothing of anybody's in it but the part. The same prints give the same bytes.
 * @see 3MF Core Specification 1.x (3MF Consortium): units, mesh, build items; Open Packaging Conventions for the rest
 */
export async function write3mf(prints: readonly Print[]): Promise<Uint8Array> {
  const { strToU8, zipSync } = await import('fflate');
  const entries = {
    '[Content_Types].xml':
      `${xmlHead}<Types xmlns="${packageTypes}/content-types">` +
      '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>' +
      '<Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/></Types>\n',
    '_rels/.rels':
      `${xmlHead}<Relationships xmlns="${packageTypes}/relationships">` +
      '<Relationship Id="model" Target="/3D/3dmodel.model" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/>' +
      '</Relationships>\n',
    '3D/3dmodel.model': modelOf(prints),
  };
  const bytes = Object.entries(entries).map(([name, text]) => [name, strToU8(text)] as const);
  return zipSync(Object.fromEntries(bytes), { level: STORED, mtime: FIXED_TIME() });
}

function modelOf(prints: readonly Print[]): string {
  const objects: string[] = [];
  const items: string[] = [];
  let along = 0;
  prints.forEach((print, i) => {
    const mesh = welded(print.mesh, (value) => roundTo(value, DECIMALS));
    const { least, most } = boxOf(mesh);
    const vertices: string[] = [];
    for (let corner = 0; corner < mesh.positions.length / 3; corner++) {
      const [x, y, z] = cornerOf(mesh, corner).map((value) => tidy(value, DECIMALS));
      vertices.push(`<vertex x="${x}" y="${y}" z="${z}"/>\n`);
    }
    const triangles: string[] = [];
    for (const [a, b, c] of trianglesOf(mesh)) triangles.push(`<triangle v1="${a}" v2="${b}" v3="${c}"/>\n`);
    objects.push(
      `<object id="${i + 1}" type="model" name="${escaped(print.name)}">\n<mesh>\n<vertices>\n${vertices.join('')}` +
        `</vertices>\n<triangles>\n${triangles.join('')}</triangles>\n</mesh>\n</object>\n`,
    );
    const [across, up] = [tidy(along - least[0], DECIMALS), tidy(-least[1], DECIMALS)];
    items.push(`<item objectid="${i + 1}" transform="1 0 0 0 1 0 0 0 1 ${across} ${up} 0"/>\n`);
    along += most[0] - least[0] + APART;
  });
  return (
    `${xmlHead}<model unit="millimeter" xml:lang="en-GB" xmlns="${core}">\n` +
    `<resources>\n${objects.join('')}</resources>\n<build>\n${items.join('')}</build>\n</model>\n`
  );
}

const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');

/**
 * Reads back a 3MF file as `write3mf` makes them: objects with one mesh each, no components.
 * @throws an Error where a part of the package is missing
 */
export async function read3mf(bytes: Uint8Array): Promise<FoundPrints> {
  const { strFromU8, unzipSync } = await import('fflate');
  const model = unzipSync(bytes)['3D/3dmodel.model'];
  if (model === undefined) throw new Error('the 3MF package holds no model');
  const text = strFromU8(model);
  const prints = [...text.matchAll(/<object ([^>]*)>(.*?)<\/object>/gs)].map(
    ([, head = '', body = '']): Print => {
      const numbers = (row: RegExp): number[] => {
        const found: number[] = [];
        for (const [, a, b, c] of body.matchAll(row)) found.push(Number(a), Number(b), Number(c));
        return found;
      };
      const positions = Float64Array.from(numbers(/<vertex x="([^"]*)" y="([^"]*)" z="([^"]*)"\/>/g));
      const triangles = Uint32Array.from(numbers(/<triangle v1="([^"]*)" v2="([^"]*)" v3="([^"]*)"\/>/g));
      return { name: attribute(head, 'name') ?? '', mesh: { positions, triangles } };
    },
  );
  const unit = attribute(/<model ([^>]*)>/.exec(text)?.[1] ?? '', 'unit') ?? 'none';
  return { unit, prints, placed: [...text.matchAll(/<item /g)].length };
}

const attribute = (row: string, name: string): string | undefined =>
  new RegExp(`(?:^|\\s)${name}="([^"]*)"`)
    .exec(row)?.[1]
    ?.replaceAll('&quot;', '"')
    .replaceAll('&gt;', '>')
    .replaceAll('&lt;', '<')
    .replaceAll('&amp;', '&');
