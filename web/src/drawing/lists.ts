// Lists as values.

export const put = <T>(list: readonly T[], index: number, item: T): T[] => list.map((old, i) => (i === index ? item : old));

export const without = <T>(list: readonly T[], index: number): T[] => list.filter((_, i) => i !== index);
