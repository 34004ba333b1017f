// Asks for the token of a shared server when the address did not carry it.
// It must not send the token anywhere by itself; the next request does.

import type { JSX } from 'preact';
import { useId } from 'preact/hooks';
import { storeToken } from '../state/token.js';

export function TokenForm(): JSX.Element {
  const id = useId();
  const submit = (event: Event & { currentTarget: HTMLFormElement }): void => {
    event.preventDefault();
    storeToken(String(new FormData(event.currentTarget).get('token') ?? ''));
    location.reload();
  };
  return (
    <form class="stack" onSubmit={submit}>
      <label for={id}>Token, as the terminal of the server shows it</label>
      <input id={id} name="token" type="password" autocomplete="off" required />
      <button type="submit" class="button button-main">
        Use this token
      </button>
    </form>
  );
}
