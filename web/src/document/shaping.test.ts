import { describe, expect, it, vi } from 'vitest';
import type { ShapeAnswer } from '../answers';
import { Shaping, type Question } from './shaping';

function bench() {
  const asked: Question[] = [];
  const answers: ((answer: ShapeAnswer) => void)[] = [];
  const shown: string[] = [];
  const shaping = new Shaping(
    (question) => new Promise((resolve) => { asked.push(question); answers.push(resolve); }),
    (answer) => shown.push(`${answer.revision} ${answer.stage}`),
    (trouble) => shown.push(String(trouble)),
  );
  const ask = (revision: number) => shaping.ask({ revision, size: 'as drawn', text: '{}' });
  const answer = (revision: number, stage: 'estimate' | 'settled' = 'estimate'): ShapeAnswer => ({ revision, stage, problem: null });
  return { asked, answers, shown, shaping, ask, answer };
}

describe('asking for shapes', () => {
  it('has one question on its way and only the latest waiting', async () => {
    const { asked, answers, shown, ask, answer } = bench();
    for (let revision = 1; revision <= 9; revision += 1) ask(revision);
    expect(asked.map(({ revision }) => revision)).toEqual([1]);
    answers[0]?.(answer(1));
    await vi.waitFor(() => expect(asked.map(({ revision }) => revision)).toEqual([1, 9]));
    answers[1]?.(answer(9));
    await vi.waitFor(() => expect(shown).toEqual(['1 estimate', '9 estimate']));
  });

  it('never shows an older answer after a newer one, nor an estimate after what was settled', () => {
    const { shown, shaping, answer } = bench();
    shaping.take(answer(5));
    shaping.take(answer(4, 'settled'));
    shaping.take(answer(5, 'settled'));
    shaping.take(answer(5));
    shaping.take(answer(6));
    expect(shown).toEqual(['5 estimate', '5 settled', '6 estimate']);
  });
});
