// What is typed and chosen for making.

/** Grammage in g/m2, with either decimal sign; null when it is none or no paper can be it. */
export function grammageIn(text: string): number | null {
  const plain = text.trim().replace(',', '.').replace(/\s*g(sm|\/m2|\/m²)?$/i, '');
  if (!/^\d+(\.\d+)?$/.test(plain)) return null;
  const value = Number(plain);
  return value >= 40 && value <= 600 ? value : null;
}

/** A title as the beginning of a file's name. */
export function fileName(title: string): string {
  const plain = title.normalize('NFKD').replace(/[\u0300-\u036f]/g, '').toLowerCase().replace(/[^a-z0-9]+/g, '-');
  return plain.replace(/^-+|-+$/g, '') || 'ornament';
}

/** Papers that pictures can be drawn with (docs/pictures.md); empty: the colour of the design. */
export const picturePapers = [
  '', 'blossom', 'hoarfrost', 'quince', 'windfall', 'russet', 'heather', 'orchard', 'bramble', 'spruce', 'dusk',
];

export const pictureViews = ['three-quarter', 'front', 'top', 'close-up', 'family', 'opening'];

export const pictureBackgrounds = ['table', 'wall', 'plain', 'transparent'];

export const meshKinds = [
  { kind: 'glb', words: 'glTF (.glb): to look at' },
  { kind: 'stl', words: 'STL (.stl): one colour, mm' },
  { kind: 'obj', words: 'OBJ (.obj): a panel each' },
  { kind: '3mf', words: '3MF (.3mf): mm, one part' },
] as const;
