// Who may sign with a personal code, and has one.
import { may } from './session.js';
import { useReading } from './reading.js';

export const useSigners = () => {
  const { body } = useReading(may('see-floor') ? '/api/signers' : null);
  return (body.value?.signers ?? []).filter(({ has_code: has }) => has);
};
