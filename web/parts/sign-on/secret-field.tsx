/** One entry of a password or PIN. The browser's own store is told which it is, so that it offers the right one. */
interface Props {
  readonly label: string;
  readonly value: { value: string };
  readonly of: 'current' | 'new';
}

export function SecretField({ label, value, of }: Props) {
  return (
    <label>
      {label}
      <input
        type="password"
        autoComplete={`${of}-password`}
        value={value.value}
        onInput={(event) => {
          value.value = event.currentTarget.value;
        }}
      />
    </label>
  );
}
