"""The certificate under which the studio is reached, looked at before it is used."""

import ssl
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path
from stat import S_IRWXG, S_IRWXO
from typing import Final

from loftwright.errors import UsageError

SOON: Final = timedelta(days=14)
"""Before a certificate's end in which its end is told (judgement)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Certificate:
    """A certificate with its key.

    Attributes
    ----------
    names : tuple of str
        Host names and addresses that it was made for.
    doubts : tuple of str
        What the one who starts the studio should know.
    """

    file: Path
    key: Path
    names: tuple[str, ...]
    doubts: tuple[str, ...] = ()


def read_certificate(file: Path | None, key: Path | None, now: datetime) -> Certificate | None:
    """Return the certificate of two files, or nothing where neither was named.

    Parameters
    ----------
    file, key : Path, optional
        PEM files: the certificate with those that vouch for it, and its key without a password.
    now : datetime

    Raises
    ------
    UsageError
        If one is missing or cannot be read, or the two do not belong together.
    """
    if file is None and key is None:
        return None
    if file is None or key is None:
        raise UsageError(
            "a certificate needs its key, and a key its certificate",
            place="--certificate" if file is None else "--key",
            mend="Name both files.",
        )
    for option, named in (("--certificate", file), ("--key", key)):
        if not named.is_file():
            raise UsageError(
                f"there is no file {named}", place=option, mend="Name the file with its folder."
            )
    _must_belong_together(file, key)
    names, ends = _told_by(file)
    return Certificate(file=file, key=key, names=names, doubts=_doubts(key, ends, now))


def _must_belong_together(file: Path, key: Path) -> None:
    context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    try:
        context.load_cert_chain(file, key, password=_no_password)
    except _Sealed as error:
        raise UsageError(
            "the key is sealed under a password",
            place="--key",
            mend="Write it without one, readable for you alone: openssl pkey -in KEY -out OPEN.",
        ) from error
    except ssl.SSLError as error:
        reason = error.reason or str(error)
        mismatch = "MISMATCH" in reason
        raise UsageError(
            "the key is not the certificate’s" if mismatch else f"they cannot be read: {reason}",
            place="--key" if mismatch else "--certificate",
            mend="Name the two that were made together, as PEM files.",
        ) from error
    except OSError as error:
        raise UsageError(
            f"a file cannot be read: {error.strerror}",
            place="--certificate and --key",
            mend="Let the one who starts the studio read them.",
        ) from error


class _Sealed(Exception):
    """Told by a key that asks for a password."""


def _no_password() -> str:
    raise _Sealed


def _told_by(file: Path) -> tuple[tuple[str, ...], datetime]:
    from cryptography import x509  # noqa: PLC0415 - only where there is a certificate

    read = x509.load_pem_x509_certificates(file.read_bytes())[0]
    try:
        other = read.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    except x509.ExtensionNotFound:
        return (), read.not_valid_after_utc
    names = (
        *other.get_values_for_type(x509.DNSName),
        *(str(one) for one in other.get_values_for_type(x509.IPAddress)),
    )
    return names, read.not_valid_after_utc


def _doubts(key: Path, ends: datetime, now: datetime) -> tuple[str, ...]:
    told: list[str] = []
    if ends <= now:
        told.append(f"The certificate ended on {ends:%-d %B %Y}: browsers refuse it.")
    elif ends - now <= SOON:
        told.append(f"The certificate ends on {ends:%-d %B %Y}.")
    if key.stat().st_mode & (S_IRWXG | S_IRWXO):
        told.append(f"Others on this machine can read {key}: chmod 600 it.")
    return tuple(told)
