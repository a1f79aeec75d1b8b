"""Certificates that vouch for themselves, made by the tests."""

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from ipaddress import ip_address
from pathlib import Path

from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import NameOID


@dataclass(frozen=True, slots=True)
class Files:
    """A certificate and its key."""

    certificate: Path
    key: Path


def a_certificate(folder: Path, *, days: float = 30.0, password: bytes = b"") -> Files:
    """Make a certificate for this machine's own names that ends in some days."""
    key = ec.generate_private_key(ec.SECP256R1())
    name = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "Loftwright test studio")])
    now = datetime.now(UTC)
    made = (
        x509.CertificateBuilder()
        .subject_name(name)
        .issuer_name(name)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(now - timedelta(days=60))
        .not_valid_after(now + timedelta(days=days))
        .add_extension(
            x509.SubjectAlternativeName(
                [
                    x509.DNSName("localhost"),
                    x509.DNSName("studio.example"),
                    x509.IPAddress(ip_address("127.0.0.1")),
                ]
            ),
            critical=False,
        )
        .add_extension(x509.BasicConstraints(ca=True, path_length=None), critical=True)
        .sign(key, hashes.SHA256())
    )
    folder.mkdir(parents=True, exist_ok=True)
    files = Files(certificate=folder / "studio.pem", key=folder / "studio.key")
    files.certificate.write_bytes(made.public_bytes(serialization.Encoding.PEM))
    sealing = (
        serialization.BestAvailableEncryption(password)
        if password
        else serialization.NoEncryption()
    )
    files.key.write_bytes(
        key.private_bytes(serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, sealing)
    )
    files.key.chmod(0o600)
    return files
