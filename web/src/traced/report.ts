// What was found and what was done to it, in sentences.
import type { Figure, ImportAnswer } from '../answers';
import { length } from '../drawing/words';

type Units = 'mm' | 'in';

/** To 0.1 mm, as far as a knife goes. */
const rough = (mm: number, units: Units): string => length(Math.round(mm * 10) / 10, units);

export const sizeWords = (figure: Figure, units: Units): string =>
  `${rough(figure.size_mm.height, units)} high, ${rough(figure.size_mm.width, units)} wide`;

function sides(figure: Figure, units: Units): string[] {
  const sentences: string[] = [];
  const lean = Math.abs(figure.tilt_deg);
  if (lean >= 0.05) sentences.push(`The axis leant to the ${figure.tilt_deg > 0 ? 'left' : 'right'} by ${lean.toFixed(1)}°; set upright.`);
  if (figure.what === 'half') sentences.push('Half a figure: its straight side is the spine.');
  else if (figure.asymmetry_mm.most < figure.tolerance_mm / 2) sentences.push('Left and right agree.');
  else {
    const { mean, most, at_height } = figure.asymmetry_mm;
    sentences.push(`Left and right differ by ${length(mean, units)} on average and ${length(most, units)} at most, ${rough(at_height, units)} up.`);
  }
  return sentences;
}

export function reportOf(answer: ImportAnswer, figure: Figure, units: Units): string[] {
  const holes = figure.cut_outs.length;
  return [
    `${sizeWords(figure, units)}, ${figure.points} points${holes === 0 ? '' : holes === 1 ? ', 1 cut-out' : `, ${holes} cut-outs`}.`,
    ...sides(figure, units),
    `The curves keep within ${length(figure.tolerance_mm, units)} of what was found.`,
    ...figure.changed,
    ...answer.notes,
  ];
}
