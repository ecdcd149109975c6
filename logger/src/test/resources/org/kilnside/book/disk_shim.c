/*
 * A disk for tests, slipped between a process and the C library with LD_PRELOAD.
 *
 * For files in the folder DISK_FOLDER it
 *   - writes down every write, truncation and sync in DISK_LOG, so that a test can work out what a power cut at any
 *     moment would have left on the disk (only what was synced is sure);
 *   - refuses to let the folder grow beyond the number of bytes in the file DISK_QUOTA, as a full disk does.
 *
 * A log record: kind (1 byte: W, T, S), wall clock in ms (8), length of the path (4), offset (8), length (8), path,
 * data. Little-endian as the machine is. SQLite's -shm files are left out: they are made anew after a power cut.
 */
#define _GNU_SOURCE
#include <dirent.h>
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <pthread.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/statvfs.h>
#include <sys/syscall.h>
#include <sys/types.h>
#include <sys/uio.h>
#include <time.h>
#include <unistd.h>

#define MOST_FILES 4096

static pthread_mutex_t one_at_a_time = PTHREAD_MUTEX_INITIALIZER;
static char *path_of[MOST_FILES];
static int log_file = -1;

static void *next(const char *name) { return dlsym(RTLD_NEXT, name); }

static int is_watched(const char *path) {
    const char *folder = getenv("DISK_FOLDER");
    size_t length = folder ? strlen(folder) : 0;
    size_t path_length = strlen(path);
    return length > 0 && strncmp(path, folder, length) == 0 && path[length] == '/'
            && !(path_length > 4 && strcmp(path + path_length - 4, "-shm") == 0);
}

static const char *watched(int file) {
    return file >= 0 && file < MOST_FILES ? path_of[file] : NULL;
}

static void note(char kind, int file, int64_t offset, const void *data, int64_t length) {
    const char *log = getenv("DISK_LOG");
    if (!log) {
        return;
    }
    if (log_file < 0) {
        log_file = (int) syscall(SYS_openat, AT_FDCWD, log, O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0600);
    }
    struct timespec now;
    clock_gettime(CLOCK_REALTIME, &now);
    int64_t now_ms = (int64_t) now.tv_sec * 1000 + now.tv_nsec / 1000000;
    int32_t path_length = (int32_t) strlen(path_of[file]);
    char head[29];
    head[0] = kind;
    memcpy(head + 1, &now_ms, 8);
    memcpy(head + 9, &path_length, 4);
    memcpy(head + 13, &offset, 8);
    memcpy(head + 21, &length, 8);
    struct iovec parts[3] = {
        {head, sizeof head}, {path_of[file], (size_t) path_length}, {(void *) data, data ? (size_t) length : 0}};
    syscall(SYS_writev, log_file, parts, 3);
}

static int64_t size_of(int file) {
    struct stat found;
    return fstat(file, &found) == 0 ? found.st_size : 0;
}

static int64_t used(void) {
    const char *folder = getenv("DISK_FOLDER");
    DIR *entries = opendir(folder);
    int64_t sum = 0;
    struct dirent *entry;
    while (entries && (entry = readdir(entries))) {
        char path[PATH_MAX];
        struct stat found;
        snprintf(path, sizeof path, "%s/%s", folder, entry->d_name);
        if (is_watched(path) && stat(path, &found) == 0 && S_ISREG(found.st_mode)) {
            sum += found.st_size;
        }
    }
    if (entries) {
        closedir(entries);
    }
    return sum;
}

/* Bytes free on the disk; INT64_MAX when it has no limit. */
static int64_t room(void) {
    const char *quota = getenv("DISK_QUOTA");
    char text[32] = {0};
    int input = quota ? (int) syscall(SYS_openat, AT_FDCWD, quota, O_RDONLY | O_CLOEXEC) : -1;
    if (input < 0) {
        return INT64_MAX;
    }
    long length = syscall(SYS_read, input, text, sizeof text - 1);
    syscall(SYS_close, input);
    if (length <= 0) {
        return INT64_MAX;
    }
    int64_t left = strtoll(text, NULL, 10) - used();
    return left > 0 ? left : 0;
}

static int there_is_room(int file, int64_t end) {
    int64_t growth = end - size_of(file);
    return growth <= 0 || growth <= room();
}

#define STATVFS(name)                                                              \
    int name(const char *path, struct name *found) {                               \
        int result = ((int (*)(const char *, struct name *)) next(#name))(path, found); \
        const char *folder = getenv("DISK_FOLDER");                                \
        int64_t left = room();                                                     \
        if (result == 0 && folder && strcmp(path, folder) == 0 && left != INT64_MAX) { \
            found->f_bavail = (fsblkcnt_t) left / found->f_frsize;                 \
        }                                                                          \
        return result;                                                             \
    }
STATVFS(statvfs)
STATVFS(statvfs64)

static int opened(int file, const char *path) {
    if (file >= 0 && file < MOST_FILES) {
        pthread_mutex_lock(&one_at_a_time);
        free(path_of[file]);
        path_of[file] = is_watched(path) ? strdup(path) : NULL;
        pthread_mutex_unlock(&one_at_a_time);
    }
    return file;
}

#define OPEN(name)                                                                          \
    int name(const char *path, int flags, ...) {                                            \
        mode_t mode = 0;                                                                    \
        if (flags & (O_CREAT | O_TMPFILE)) {                                                \
            va_list rest;                                                                   \
            va_start(rest, flags);                                                          \
            mode = va_arg(rest, mode_t);                                                    \
            va_end(rest);                                                                   \
        }                                                                                   \
        return opened(((int (*)(const char *, int, ...)) next(#name))(path, flags, mode), path); \
    }
OPEN(open)
OPEN(open64)

int close(int file) {
    if (watched(file)) {
        pthread_mutex_lock(&one_at_a_time);
        free(path_of[file]);
        path_of[file] = NULL;
        pthread_mutex_unlock(&one_at_a_time);
    }
    return ((int (*)(int)) next("close"))(file);
}

static ssize_t put(int file, const void *data, size_t length, off_t offset, int positioned) {
    pthread_mutex_lock(&one_at_a_time);
    off_t at = positioned ? offset : lseek(file, 0, SEEK_CUR);
    ssize_t written;
    if (!there_is_room(file, (int64_t) at + (int64_t) length)) {
        errno = ENOSPC;
        written = -1;
    } else {
        written = positioned ? syscall(SYS_pwrite64, file, data, length, offset)
                             : syscall(SYS_write, file, data, length);
        if (written > 0) {
            note('W', file, at, data, written);
        }
    }
    int error = errno;
    pthread_mutex_unlock(&one_at_a_time);
    errno = error;
    return written;
}

ssize_t write(int file, const void *data, size_t length) {
    return watched(file) ? put(file, data, length, 0, 0) : syscall(SYS_write, file, data, length);
}

ssize_t pwrite(int file, const void *data, size_t length, off_t offset) {
    return watched(file) ? put(file, data, length, offset, 1) : syscall(SYS_pwrite64, file, data, length, offset);
}

ssize_t pwrite64(int file, const void *data, size_t length, off64_t offset) {
    return pwrite(file, data, length, offset);
}

static int cut(int file, off_t length) {
    if (!watched(file)) {
        return (int) syscall(SYS_ftruncate, file, length);
    }
    pthread_mutex_lock(&one_at_a_time);
    int result = -1;
    if (there_is_room(file, length)) {
        result = (int) syscall(SYS_ftruncate, file, length);
        note('T', file, length, NULL, 0);
    } else {
        errno = ENOSPC;
    }
    pthread_mutex_unlock(&one_at_a_time);
    return result;
}

int ftruncate(int file, off_t length) { return cut(file, length); }

int ftruncate64(int file, off64_t length) { return cut(file, length); }

static int synced(int file, long call) {
    if (!watched(file)) {
        return (int) syscall(call, file);
    }
    pthread_mutex_lock(&one_at_a_time);
    int result = (int) syscall(call, file);
    if (result == 0) {
        note('S', file, 0, NULL, 0);
    }
    pthread_mutex_unlock(&one_at_a_time);
    return result;
}

int fsync(int file) { return synced(file, SYS_fsync); }

int fdatasync(int file) { return synced(file, SYS_fdatasync); }
