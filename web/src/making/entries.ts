// What can be chosen for making, and names for what is made.

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
