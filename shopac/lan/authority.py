"""The shop's own certificate authority, and the certificate that its server shows.

Tablets are told once to trust the authority. It is bound to the shop's one name and to private
addresses (RFC 5280, 4.2.1.10), so that whoever stole its key could pretend to be this shop and
nobody else. Pure: bytes and times in, bytes out; where they lie is shopac/lan/kept.py.
"""

import ipaddress
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta
from itertools import chain

from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from shopac.lan.addresses import OF_THE_MACHINE, OF_VERSION_6, PRIVATE, is_address

# Browsers take 398 days at most from authorities that come with them, and shops get the same.
SERVER_DAYS = 397
# A tablet is paired with the authority by hand, so it should outlive it. Our judgement.
AUTHORITY_DAYS = 20 * 365
# A tablet's clock may be behind by so much and still believe a certificate made today.
BACKDATED = timedelta(days=2)
# Where a shop goes by its address, no name is certified: this one can never exist (RFC 6761).
NO_NAME = "shopac.invalid"


@dataclass(frozen=True)
class Pair:
    """A certificate and its key, both as PEM; the key is PKCS#8, not encrypted."""

    certificate: bytes
    key: bytes


def make_authority(name: str, now: datetime) -> Pair:
    """A new authority for the shop of this name, or of this fixed address.

    Args:
        name: host name, or an IP address as text.
        now: aware; the authority is good from two days before it, for 20 years.

    """
    key = ec.generate_private_key(ec.SECP256R1())
    subject = _called(f"shopac authority of {name}"[:64])
    named = x509.DNSName(NO_NAME if is_address(name) else name)
    networks = chain(PRIVATE, OF_THE_MACHINE, OF_VERSION_6)
    allowed = x509.NameConstraints([named, *map(x509.IPAddress, networks)], None)
    usage = _usage(key_cert_sign=True, crl_sign=True)
    made = (
        _begun(subject, subject, key, now, AUTHORITY_DAYS)
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(usage, critical=True)
        .add_extension(allowed, critical=True)
        .sign(key, hashes.SHA256())
    )
    return _pair(made, key)


def make_server(authority: Pair, name: str, addresses: Iterable[str], now: datetime) -> Pair:
    """A certificate for the shop's server, with a key of its own, followed by nothing.

    Args:
        authority: who signs.
        name: the shop's host name, or its fixed address.
        addresses: private addresses under which the server is reached too.
        now: aware; good from two days before it, for 397 days, and no longer than the authority.

    Raises:
        ValueError: the authority's key is not that of its certificate, or cannot be read.

    """
    parent, signer = _read(authority)
    key = ec.generate_private_key(ec.SECP256R1())
    told = dict.fromkeys([*([name] if is_address(name) else []), *addresses])
    names: list[x509.GeneralName] = [] if is_address(name) else [x509.DNSName(name)]
    names += [x509.IPAddress(ipaddress.ip_address(one)) for one in told]
    begun = _begun(_called(name), parent.subject, key, now, SERVER_DAYS, parent)
    made = (
        begun.add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(_usage(digital_signature=True), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .add_extension(x509.SubjectAlternativeName(names), critical=False)
        .add_extension(
            x509.AuthorityKeyIdentifier.from_issuer_public_key(signer.public_key()), critical=False
        )
        .sign(signer, hashes.SHA256())
    )
    return _pair(made, key)


def span(certificate: bytes) -> tuple[datetime, datetime]:
    """The first and the last moment at which a certificate is good, aware, in UTC."""
    found = x509.load_pem_x509_certificate(certificate)
    return found.not_valid_before_utc, found.not_valid_after_utc


def fingerprint(certificate: bytes) -> str:
    """SHA-256 of the certificate as tablets show it: 32 pairs of digits with colons."""
    return x509.load_pem_x509_certificate(certificate).fingerprint(hashes.SHA256()).hex(":").upper()


def is_for(authority: bytes, name: str) -> bool:
    """Whether this authority was made for the shop of this name."""
    found = x509.load_pem_x509_certificate(authority)
    allowed = found.extensions.get_extension_for_class(x509.NameConstraints).value
    named = x509.DNSName(NO_NAME if is_address(name) else name)
    return named in (allowed.permitted_subtrees or [])


def _called(name: str) -> x509.Name:
    return x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, name)])


def _begun(
    subject: x509.Name,
    issuer: x509.Name,
    key: ec.EllipticCurvePrivateKey,
    now: datetime,
    days: int,
    parent: x509.Certificate | None = None,
) -> x509.CertificateBuilder:
    begins = now.replace(microsecond=0) - BACKDATED
    end = begins + timedelta(days=days)
    if parent:
        begins = max(begins, parent.not_valid_before_utc)
        end = min(end, parent.not_valid_after_utc)
    public = key.public_key()
    return (
        x509.CertificateBuilder()
        .subject_name(subject)
        .issuer_name(issuer)
        .public_key(public)
        .serial_number(x509.random_serial_number())
        .not_valid_before(begins)
        .not_valid_after(end)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(public), critical=False)
    )


def _usage(
    *, digital_signature: bool = False, key_cert_sign: bool = False, crl_sign: bool = False
) -> x509.KeyUsage:
    return x509.KeyUsage(
        digital_signature=digital_signature,
        content_commitment=False,
        key_encipherment=False,
        data_encipherment=False,
        key_agreement=False,
        key_cert_sign=key_cert_sign,
        crl_sign=crl_sign,
        encipher_only=False,
        decipher_only=False,
    )


def _pair(made: x509.Certificate, key: ec.EllipticCurvePrivateKey) -> Pair:
    return Pair(
        made.public_bytes(serialization.Encoding.PEM),
        key.private_bytes(
            serialization.Encoding.PEM,
            serialization.PrivateFormat.PKCS8,
            serialization.NoEncryption(),
        ),
    )


def _read(pair: Pair) -> tuple[x509.Certificate, ec.EllipticCurvePrivateKey]:
    certificate = x509.load_pem_x509_certificate(pair.certificate)
    key = serialization.load_pem_private_key(pair.key, None)
    if not isinstance(key, ec.EllipticCurvePrivateKey):
        raise ValueError("the authority's key is of another sort")  # noqa: TRY004
    if key.public_key() != certificate.public_key():
        raise ValueError("the authority's key is not that of its certificate")
    return certificate, key
