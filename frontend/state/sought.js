// What is sought in the book: words anywhere in a row, and amounts in whichever way they are printed.

/** '1 460', '1,460.00', '1.460,00' and '1460' are one amount, in minor units; anything else is none. */
const amountIn = (text) => {
  const bare = text.replace(/^[£€$]\s*|\s*[£€$]$/g, '');
  if (!/^\d{1,3}(?:[ ,.'’\u00a0\u202f]\d{3})+(?:[.,]\d{2})?$|^\d+(?:[.,]\d{2})?$/.test(bare)) return null;
  const [, whole, , cents] = /^(.*?)([.,](\d{2}))?$/.exec(bare);
  return Number(whole.replace(/\D/g, '')) * 100 + Number(cents ?? 0);
};

/** A run of figures is one word, whatever divides it: '1 460 four-link' is an amount and a word. */
const wordsOf = (q) => q.trim().match(/[£€$]?\s?\d{1,3}(?:[ \u00a0\u202f]\d{3})+(?:[.,]\d{2})?(?!\d)|[^\s£€$]\S*|[£€$]\S+/g) ?? [];

/** `textOf(row)`: all its words; `amountsOf(row)`: its amounts in minor units. */
export const matching = (rows, q, textOf, amountsOf = () => []) => {
  const words = wordsOf(q.toLowerCase()).map((word) => ({ word, amount: amountIn(word) }));
  return rows.filter((row) => {
    const [text, amounts] = [textOf(row).toLowerCase(), amountsOf(row)];
    return words.every(({ word, amount }) => text.includes(word) || (amount !== null && amounts.includes(amount)));
  });
};
