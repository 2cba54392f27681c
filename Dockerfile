# The shop's own processes (web, worker, beat): one image, no compiler, no root.
FROM python:3.12-slim-bookworm

RUN apt-get update \
    && apt-get install -y --no-install-recommends \
        libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0 postgresql-client \
    && rm -rf /var/lib/apt/lists/* \
    && useradd --create-home --uid 10001 shop \
    && install -d -o shop /var/lib/fitshop /var/lib/fitshop/messages

WORKDIR /house
COPY requirements.txt .
RUN pip install --no-cache-dir --require-hashes -r requirements.txt
COPY . .

ENV PYTHONUNBUFFERED=1 FITSHOP_VAR=/var/lib/fitshop
USER shop
# Static files belong to the image; the key here signs nothing.
RUN FITSHOP_SECRET_KEY=only-while-the-image-is-built python manage.py collectstatic --noinput
EXPOSE 8000
CMD ["gunicorn", "fitshop.wsgi:application", "--bind=0.0.0.0:8000", "--workers=2", "--threads=4"]
