// The appointed dealers: all of them for the office, himself alone for a dealer.
import { signal } from '@preact/signals';
import { get, Refusal } from '../api.js';

export const dealers = signal([]);

export const fetchDealers = async () => {
  try {
    const { body } = await get('/api/dealers');
    dealers.value = body.dealers ?? body;
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
  }
};

export const dealerOf = (id) => dealers.value.find((dealer) => dealer.id === id) ?? null;
export const dealerName = (id) => dealerOf(id)?.name ?? '';
