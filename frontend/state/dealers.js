// The appointed dealers, for those who quote for them.
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

export const dealerName = (id) => dealers.value.find((dealer) => dealer.id === id)?.name ?? '';
