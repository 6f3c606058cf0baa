// Findings sorted and put into words.
import type { Finding } from '../answers';

type Verdict = Finding['verdict'];

const worstFirst: Verdict[] = ['fails', 'warning', 'note', 'good'];

export const verdictWords: Record<Verdict, string> = {
  fails: 'Fails', warning: 'Take care', note: 'Worth knowing', good: 'Good',
};

/** Worst first; equal ones stay in their order. */
export function sorted(findings: Finding[]): Finding[] {
  return [...findings].sort((a, b) => worstFirst.indexOf(a.verdict) - worstFirst.indexOf(b.verdict));
}

function counted(count: number, one: string, several: string): string {
  return `${count} ${count === 1 ? one : several}`;
}

/** One line on all of them. */
export function summary(findings: Finding[]): string {
  const of = (verdict: Verdict): number => findings.filter((finding) => finding.verdict === verdict).length;
  const fails = of('fails'), warnings = of('warning');
  const parts = [
    fails > 0 ? `Not like this: ${counted(fails, 'thing stands', 'things stand')} in the way` : 'It can be made',
    warnings > 0 ? counted(warnings, 'thing asks for care', 'things ask for care') : '',
  ];
  return `${parts.filter((part) => part !== '').join('; ')}.`;
}

/** Three significant digits, whole numbers as they are. */
function numberInWords(value: number): string {
  if (Number.isInteger(value)) return String(value);
  if (Math.abs(value) < 5e-4) return '0';
  return String(Number(value.toPrecision(3)));
}

/** "0.74 mm, limit 0.5 mm"; empty where nothing was measured. */
export function measured(finding: Finding): string {
  if (finding.value === null || finding.id === 'opens.form' || (finding.id.startsWith('fan.') && finding.verdict === 'fails' && finding.value === 0)) return '';
  const unit = finding.unit === '' ? '' : ` ${finding.unit.replace('m2', 'm²')}`;
  const value = `${numberInWords(finding.value)}${unit}`;
  return finding.limit === null ? value : `${value}, limit ${numberInWords(finding.limit)}${unit}`;
}

/** Without the keys of the design file, in brackets and quotation marks: they are for those who write it by hand. */
export function inWords(sentence: string): string {
  return sentence.replace(/ \([^()]*"[^()]*\)/g, '').replaceAll('g/m2', 'g/m²');
}
